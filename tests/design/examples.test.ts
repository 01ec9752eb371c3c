import { describe, expect, it } from "vitest";
import { readExamples } from "../../lib/design/examples";

const sound = `name: audio
symbols: { R_s: resistance of the source }
laws:
  inputLoading:
    symbols: { k: share }
    examples:
      - with: { R_i: 9 kΩ, N: 1.50 }
        gives: -0.915 dB
        from: "by hand: 20·lg(9/10)"
      - with: {}
        gives: { I: 2.10 mA }
        from: check row audio-01
`;
const read = (text: string) => readExamples({ "data/examples/audio.yaml": text });

describe("readExamples(files)", () => {
  it("reads symbols, arguments and results as they are written, with their places", () => {
    const [file] = read(sound);
    const law = file?.laws.get("inputLoading");
    expect([file?.name, file?.symbols, law?.symbols]).toEqual(["audio", { R_s: "resistance of the source" }, { k: "share" }]);
    const [first, second] = law?.examples ?? [];
    expect(first?.arguments.N).toEqual({ text: "1.50", place: "data/examples/audio.yaml:7:31" });
    expect(first?.results).toEqual({ "": { text: "-0.915 dB", place: "data/examples/audio.yaml:8:16" } });
    expect(second?.results.I?.text).toBe("2.10 mA");
    expect([first?.from, second?.from]).toEqual(["by hand: 20·lg(9/10)", "check row audio-01"]);
  });

  it.each([
    ["no subject", sound.replace("name: audio", "note: audio"), /has no name/],
    [
      "no source",
      sound.replace("        from: check row audio-01\n", ""),
      /audio\.yaml:10:9: an example of inputLoading has no from.*never from running this library/s,
    ],
    ["no result", sound.replace("        gives: -0.915 dB\n", ""), /has no gives/],
    ["no arguments", sound.replace("with: {}", "gave: {}"), /has no with/],
    ["a slip in a key", sound.replace("gives: -0", "gibes: -0"), /audio\.yaml:8:9: unknown key 'gibes'.*gives/],
    ["examples that are no list", sound.replace(/examples:\n[\s\S]*/, "examples: none\n"), /examples of inputLoading is no list/],
    ["words that are none", sound.replace("share }", "3 }"), /k of symbols of inputLoading is 3, not text/],
  ])("refuses a file with %s", (_, text, message) => {
    expect(() => read(text)).toThrow(message);
  });
});
