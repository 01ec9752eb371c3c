import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import type { Opened } from "./browser";

interface Violation {
  readonly id: string;
  readonly nodes: readonly { readonly html: string; readonly failureSummary: string }[];
}

const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

/** What axe-core finds against WCAG 2.1 A and AA. The checker is brought in past the page's own policy. */
export async function violations({ page }: Opened): Promise<string[]> {
  const run = `axe.run(document, { runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "best-practice"] }).then(({ violations }) => violations)`;
  // It looks at every element before it leaves the hidden ones out, so what stands in the pages that are not open is taken away for the while.
  const alone = `const aside = [...document.querySelectorAll(".page[hidden]")].map((page) => [page, [...page.childNodes]]);
    for (const [page] of aside) page.replaceChildren();
    const back = () => { for (const [page, children] of aside) page.replaceChildren(...children); };`;
  const found = await page.evaluate<readonly Violation[]>(`(() => { ${axe};${alone} return ${run}.finally(back); })()`);
  return found.flatMap(({ id, nodes }) => nodes.map((node) => `${id}: ${node.html.slice(0, 160)} ${node.failureSummary}`));
}
