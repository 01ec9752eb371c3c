// Stands in for mathjs in the page: formulas reach it as trees, so nothing there parses text.
export const parseDependencies = {};
export function create() {
  return {
    parse() {
      throw new Error("formula text cannot be read in the page");
    },
  };
}
