/** A small sound design file, and a way to spoil one line of it. */
import { readFileSync } from "node:fs";
import { expect } from "vitest";
import { readDesign } from "../../lib/design/read";
import { readReferences } from "../../lib/design/reference";

export const sound = `product:
  name: Test
  revision: "1"
sources:
  own:
    type: document
    title: Made up for this test
requirements:
  led:
    statement: Alike.
    limit: "<= 1.3"
    judged: 95 %
decisions:
  lamp:
    rail:
      chosen: high
      reason: it is higher
      reconsider: never
givens:
  rails:
    high:
      value: 4.5 V ±2 %
      meaning: the high rail
      symbol: V_h
      source: own
      note: <b>bold</b> & plain
      memory: true
  lamp:
    iv:
      meaning: current against voltage
      source: own
      table:
        columns: [voltage in V, current in mA]
        interpolation: log-y
        rows:
          - [1.8, 0.1]
          - [1.9, 1]
          - [2.0, 5.5]
readings:
  first:
    result: lamp.I
    value: 2.1 mA
    specimen: prototype 3
    source: own
`;

/** A sound text, or that of this file, with one stretch replaced; the stretch must occur. */
export function spoil(from: string, to: string, text = sound): string {
  expect(text).toContain(from);
  return text.replace(from, () => to);
}

/** The message with which reading a text fails. */
export function failure(text: string): string {
  try {
    readDesign(text, "d.yaml");
  } catch (error) {
    return (error as Error).message;
  }
  return "read without error";
}

const referenceNames = ["constants", "luminosity", "preferred-numbers"] as const;

export function file(path: string): string {
  return readFileSync(new URL(`../../${path}`, import.meta.url), "utf8");
}

export function references() {
  return readReferences(
    Object.fromEntries(referenceNames.map((name) => [`data/reference/${name}.yaml`, file(`data/reference/${name}.yaml`)])),
  );
}

/** Files beside the demo's design file. */
export const beside = (name: string): string => file(`data/bittern/${name}`);

export function bittern() {
  return readDesign(file("data/bittern/design.yaml"), "data/bittern/design.yaml", references(), beside);
}
