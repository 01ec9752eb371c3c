/**
 * Assumptions break the loops of engineering (heat and resistance, allocation and roll-up): a sheet assumes a given, and a
 * later sheet that computes the quantity confirms it, or does not.
 */
import { assignable } from "../quantity/dimension";
import type { Dim } from "../quantity/dimension-types";
import type { Quantity, Unit } from "../quantity/quantity";
import { gainAsAsked } from "./asked-gain";
import { expectGiven } from "./given";
import { bring, otherSheet } from "./other-sheets";
import type { AnyQuantity, Session } from "./session";

/** The given at `path`, marked as an assumption under `name`, unique in the sheet. */
export function assume<D extends Dim>(session: Session, name: string, path: string, unit: Unit<D>): Quantity<D> {
  const given = gainAsAsked(session.design.given(path), unit.dimension);
  const place = given.provenance.place ?? path;
  if (given.kind !== "given") throw session.error("dimension", `${place}: ${path} is a table; only a single quantity can be assumed`);
  expectGiven(session, given, given.dimension, unit);
  session.add(given);
  session.name("assumption", name);
  session.show({ type: "assumption", name, node: given.id }, [session.evaluation.analysis(given.id)]);
  return session.quantity(given.id, unit) as Quantity<D>;
}

/** Sets a computed result beside the assumption `sheet.name` that stood for it. */
export function confirm(session: Session, folder: string, of: string, computed: AnyQuantity): void {
  const dot = of.indexOf(".");
  const sheet = otherSheet(session, folder, of.slice(0, dot));
  const assumptions = sheet.displays.flatMap(({ block }) => (block.type === "assumption" ? [block] : []));
  const found = assumptions.find(({ name }) => name === of.slice(dot + 1));
  if (found === undefined) {
    throw session.error(
      "worksheet",
      `${sheet.name} assumes no "${of.slice(dot + 1)}"; it assumes ${assumptions.map(({ name }) => name).join(", ") || "nothing"}`,
    );
  }
  const assumed = bring(session, sheet, found.node);
  const expected = session.quantity(assumed).dimension;
  if (!assignable(computed.dimension, expected)) {
    throw session.error("dimension", `${of} is ${expected.label}; the result that should confirm it is ${computed.dimension.label}`);
  }
  session.name("confirmation of", of);
  const node = session.enter(computed);
  session.show({ type: "confirmation", of, assumed, node }, [session.evaluation.analysis(assumed), session.evaluation.analysis(node)]);
}
