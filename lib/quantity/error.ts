/** What can go wrong, as a closed list. Sorted; each floor adds its own. */
export type ErrorCode =
  | "book" // a book.yaml that cannot be used
  | "busy" // another run of the same book
  | "changed" // a file that another program has saved since it was read
  | "curve-crossing" // a curve that never passes the value asked for
  | "curve-points" // points that make no curve
  | "design" // a design or reference file that is malformed or incomplete; the message lists every place
  | "dimension" // quantities that may not be combined, or a quantity asked for in a unit of another dimension
  | "dimension-text" // a dimension key that is not written canonically
  | "division-by-zero" // a formula divides by a sub-expression that is zero
  | "drawing" // no drawing of that name, or a size that cannot be drawn
  | "formula" // formula text that does not parse, or whose dimensions do not fit
  | "graph-choice" // an alternative that a decision does not have
  | "graph-cycle" // results that depend on one another in a circle
  | "graph-data" // stored nodes that are not nodes
  | "graph-duplicate" // one id for two different results or givens
  | "graph-missing" // an id or path that the graph does not have
  | "graph-shape" // a curve where a number is needed, or the reverse
  | "level" // a value that has no level in decibels, or a level used as a linear unit
  | "model-argument" // a model called without one of its arguments
  | "model-duplicate" // two models of one name
  | "model-failed" // a model that threw an error of its own
  | "model-unknown" // a model or output that is not registered
  | "nominal-domain" // division by zero or a value outside a function's domain
  | "not-finite" // NaN or an infinity
  | "notebook" // a file that is not a notebook of nbformat 4.5, or not one of TypeScript
  | "path" // a path that the design file, or a file to edit, does not have
  | "project" // no book.yaml or no design file where a worksheet looks for them
  | "quantity-text" // text that is not a quantity
  | "table-range" // a table read outside its rows
  | "table-rule" // a table whose rule of interpolation the procedure cannot use
  | "unit-text" // text that is not a unit
  | "worksheet" // a call in a worksheet that cannot be answered: a missing name, a second definition, nothing to draw
  | "usage" // a command line, or a file named on it, that cannot be used
  | "write"; // a file that could not be written

/** Facts of an error, for programs; the message says the same to an engineer. */
export interface ErrorDetails {
  /** Where: `data/product/design.yaml:41:12`, `column 5`. */
  readonly place?: string;
  readonly [fact: string]: unknown;
}

/** The one root of every error that this package throws on purpose. */
export class WorkingsError extends Error {
  readonly code: ErrorCode;
  readonly details: ErrorDetails;

  constructor(code: ErrorCode, message: string, details: ErrorDetails = {}) {
    super(message);
    this.name = "WorkingsError";
    this.code = code;
    this.details = details;
  }
}
