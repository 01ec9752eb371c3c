/**
 * A Vega specification as SVG text: synchronous, the same bytes whatever was drawn before, and without `eval`
 * (expressions are interpreted), so that the page may draw under a strict content-security-policy.
 */

import type { Spec } from "vega";
import * as vega from "vega";
import { expressionInterpreter } from "vega-interpreter";
import { letterWidth } from "./room";
import { shortSvg } from "./short-svg";

/** Of vega's, what measures texts. */
interface TextMetrics {
  width(item: { readonly fontSize?: number }, text: unknown): number;
}
// Without a canvas vega takes a letter for 0.8 of its size, and leaves that much room unused.
(vega as unknown as { textMetrics: TextMetrics }).textMetrics.width = ({ fontSize = 11 }, text) =>
  String(text ?? "").length * letterWidth * fontSize;

/** The two members of a view that hold its size after layout; vega's own headless rendering reads them alike. */
interface LaidOut {
  readonly _viewWidth: number;
  readonly _viewHeight: number;
}
interface SvgRenderer {
  initialize(element: null, width: number, height: number, origin: readonly [number, number], scale: number): SvgRenderer;
  render(scene: unknown): SvgRenderer;
  svg(): string;
}

/** SVG text; every id in it is `idPrefix-n`. */
export function renderSpec(spec: Spec, idPrefix: string): string {
  const runtime = vega.parse(spec, undefined, { ast: true });
  const view = new vega.View(runtime, { renderer: "none", logLevel: vega.None, expr: expressionInterpreter } as ConstructorParameters<
    typeof vega.View
  >[1]);
  view.run();
  // The first pass measures axes and legends, the second lays out with what was measured.
  view.resize().run();
  const { _viewWidth: width, _viewHeight: height } = view as unknown as LaidOut;
  const { left, right, top, bottom } = view.padding() as { left: number; right: number; top: number; bottom: number };
  const [x, y] = view.origin() as [number, number];
  const { SVGStringRenderer: Renderer } = vega as unknown as { SVGStringRenderer: new (loader: unknown) => SvgRenderer };
  const svg = new Renderer(view.loader())
    .initialize(null, width + left + right, height + top + bottom, [x + left, y + top], 1)
    .render((view.scenegraph() as unknown as { root: unknown }).root)
    .svg();
  view.finalize();
  return rewriteIds(shortSvg(svg), idPrefix);
}

/** Replaces every id and each reference to it by `prefix-n`, numbered by first appearance. */
function rewriteIds(svg: string, prefix: string): string {
  const names = new Map<string, string>();
  const rename = (id: string) => {
    const known = names.get(id) ?? `${prefix}-${names.size + 1}`;
    names.set(id, known);
    return known;
  };
  return svg
    .replace(/\bid="([^"]+)"/g, (_, id: string) => `id="${rename(id)}"`)
    .replace(/url\(#([^)]+)\)/g, (_, id: string) => `url(#${rename(id)})`);
}
