/** Cautions, and the results that a sheet hands on. */
import type { AnyQuantity, Session } from "./session";

/** Shows a caution. */
export function caution(session: Session, subject: string, text: string): void {
  session.show({ type: "caution", subject, text });
}

/** Publishes results under names that are unique in the sheet. */
export function publish(session: Session, results: Readonly<Record<string, AnyQuantity>>): void {
  for (const name of Object.keys(results)) session.name("published name", name);
  const names = Object.fromEntries(Object.entries(results).map(([name, quantity]) => [name, session.enter(quantity)]));
  session.show(
    { type: "publish", names },
    Object.values(names).map((id) => session.evaluation.analysis(id)),
  );
}
