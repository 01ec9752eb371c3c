/** The command line: its help, its options, its exit codes. */
import { parseArgs } from "node:util";
import { WorkingsError } from "../quantity/error";

export const exitCodes = { done: 0, failed: 1, unusable: 2, internal: 3, unread: 141 } as const;

export const help = `workings - worksheets whose calculations are the design rationale

  workings run [sheet ...]   run worksheets whose outputs no longer stand, write them and build/results.json
  workings watch             run what is stale at every save, and show the document in a browser as it changes; Ctrl-C ends it
  workings publish           make the document build/<product>.html from the worksheets' outputs
  workings why NAME          from a result, or those that answer a requirement, to its givens: values, shares
                             of the spread, sources, and whether the worst case is proved
  workings why --from PATH   from a given or decision to all that it reaches: requirements, results with what they are
                             worth at both ends of a step, plots, budgets, text; nothing is run
  workings vary PATH=VALUE ...   what would move, and which verdicts would flip; no file is touched
  workings compare A B       what differs between two revisions of the book, and which given or decision carried it;
                             A and B are folders, git revisions or results files; no file is touched
  workings check             verdict of every requirement; decisions, assumptions and readings that do not stand;
                             numbers in the text; quantities typed into cells
  workings lab [-- option ...]   Jupyter on the notebooks with this project's kernel; what follows goes to Jupyter
  workings reference         every formula and model of workings/physics, with worked examples: build/physics.html
  workings kernel            register that kernel in build/jupyter, for a Jupyter that is started otherwise

A sheet is named as in book.yaml, with or without number and extension. Named sheets run; without names,
those run whose cells, design data, taken results or library have changed. A sheet runs after those that it takes from.

Options
  --book FILE      the book; otherwise book.yaml or notebooks/book.yaml here or in the nearest folder above
  --design FILE    run: another design file through the same worksheets. Notebooks stay as they are; the results go
                   to build/results-<design>.json
  --all            run: every sheet, whatever is fresh, and every result anew, whatever is kept of earlier runs
  --strict         check: what is not shown, not sure or not confirmed fails as well
  --port N         watch: the port on 127.0.0.1; otherwise a free one
  --timeout S      run, watch: time limit of one cell in seconds (120)
  --heap MIB       run, watch: memory limit of a sheet in MiB (2048)
  --jobs N         run, watch: sheets that may run at a time (as many as the machine has cores)
  --from PATH      why: a given or a decision of the design file, in the place of NAME. Results are told at 10 % to either
                   side of it, at the step that the design file gives it (step: 5 °C), at the ends of a range, 10 K to
                   either side of a point of temperature, 1 dB of a level, the limits about a value of zero
  --coverage P     why NAME: statistics instead, an interval that holds the share P (0.99) of units, the shortest one, mean,
                   standard deviation, number of draws and expanded uncertainty
  --beside NAME    why NAME: the same at 0.95 or --coverage, with the correlation of the two results
  --output FILE    publish, reference: where the document goes; other files beside it
  --pdf            publish: the document on paper as well, printed by Chromium
  --csv            publish: register of givens, results, requirements and parts as well, as tables for other programs;
                   text that a spreadsheet would compute (it begins with = + - or @) has ' before it
  --markdown       publish: the document as Markdown as well, a folder of files for a code host;
                   compare: as Markdown for a review
  --stale          publish: also a book that is not fresh; every page says so
  --json           one JSON object on standard output instead of text
  --help           this text

Exit codes
  0    done; check: every requirement that a sheet computes holds or is not sure, no decision, assumption or reading is contradicted,
       every number bound to a result in the text is the computed one, and no quantity is typed into a cell
  1    a sheet failed, or check found one of these wrong or a sheet that is not fresh, or publish was asked for one
       without --stale; check --strict also where something is not shown or not sure;
       compare: a verdict got worse, or is not judged because a sheet that answers it is not fresh;
       lab: Jupyter ended with an error
  2    the command, the book, the design or a notebook cannot be used as it is
  3    a fault of this program
  130  interrupted (Ctrl-C); the sheet that was running is left as it was; Jupyter and its kernels are ended
  143  ended by SIGTERM, likewise
  141  standard output was closed before all was said (workings check | head -1)

Examples
  workings run                        what is not fresh
  workings run --all                  all sheets
  workings run indicators             one sheet
  workings run --timeout 600 --json   for another program
  workings run --design data/bittern/brighter.yaml
  workings publish && open build/bittern.html
  workings watch                      prints the address for the browser
  workings publish --pdf --csv        for the archive
  workings why indicators.led
  workings why battery.runtime --coverage 0.99
  workings why --from battery.middle.capacity
  workings vary "indicators.green.bin=±5 %" decisions.indicators.rail=auxiliary
  workings compare HEAD .             what the work since the last commit has moved
  workings compare v1 v2 --markdown   for a review
  workings compare old/build/results.json build/results.json
  workings check --strict             before a release
  workings lab -- --no-browser        Jupyter for a browser elsewhere
  workings reference --output physics.html
  workings kernel                     how to start a Jupyter of one's own with the kernel
`;

interface Options {
  readonly book?: string;
  readonly design?: string;
  readonly output?: string;
  /** Path of the design file. */
  readonly from?: string;
  /** Of statistics, in (0, 1). */
  readonly coverage?: number;
  /** A result to correlate with. */
  readonly beside?: string;
  readonly port?: number;
  /** ms */
  readonly timeout?: number;
  readonly heap?: number;
  readonly jobs?: number;
  readonly json: boolean;
  readonly all: boolean;
  readonly strict?: boolean;
  readonly pdf?: boolean;
  readonly csv?: boolean;
  readonly markdown?: boolean;
  readonly stale?: boolean;
}

export interface Command {
  readonly name: "run" | "watch" | "publish" | "check" | "why" | "vary" | "compare" | "lab" | "kernel" | "reference" | "help";
  /** Sheets of run, the name of why, the changes of vary, the revisions of compare, what lab hands to Jupyter. */
  readonly words: readonly string[];
  readonly options: Options;
}

const flags = {
  book: { type: "string" },
  design: { type: "string" },
  port: { type: "string" },
  timeout: { type: "string" },
  heap: { type: "string" },
  jobs: { type: "string" },
  output: { type: "string" },
  from: { type: "string" },
  coverage: { type: "string" },
  beside: { type: "string" },
  json: { type: "boolean", default: false },
  all: { type: "boolean" },
  strict: { type: "boolean" },
  pdf: { type: "boolean" },
  csv: { type: "boolean" },
  markdown: { type: "boolean" },
  stale: { type: "boolean" },
  help: { type: "boolean", short: "h", default: false },
} as const;

/** Options that only some commands take. */
const only: Readonly<Record<string, readonly Command["name"][]>> = {
  design: ["run"],
  port: ["watch"],
  timeout: ["run", "watch"],
  heap: ["run", "watch"],
  jobs: ["run", "watch"],
  all: ["run"],
  output: ["publish", "reference"],
  from: ["why"],
  coverage: ["why"],
  beside: ["why"],
  strict: ["check"],
  pdf: ["publish"],
  csv: ["publish"],
  markdown: ["publish", "compare"],
  stale: ["publish"],
};

const commands = ["run", "watch", "publish", "check", "why", "vary", "compare", "lab", "kernel", "reference"] as const;

function isCommand(name: string): name is (typeof commands)[number] {
  return (commands as readonly string[]).includes(name);
}

/** Throws WorkingsError "usage" for anything that the help does not state. */
export function parseCommand(words: readonly string[]): Command {
  const { values, positionals } = parse(words);
  const [name, ...rest] = positionals;
  const { book, design, output, json } = values;
  if (values.help || name === undefined || name === "help") return { name: "help", words: [], options: { json, all: false } };
  if (!isCommand(name)) throw usage(`there is no command "${name}"; the commands are ${commands.join(", ")}`);
  if (["publish", "check", "watch"].includes(name) && rest.length > 0) throw usage(`${name} takes the whole book, no sheet names`);
  if (name === "kernel" && rest.length > 0) throw usage("kernel takes no names: every notebook of the book finds the one kernel");
  if (name === "lab" && json) throw usage("lab has no --json: it shows what Jupyter says");
  if (name === "why" && rest.length !== (values.from === undefined ? 1 : 0))
    throw usage("why takes one name, as in: workings why indicators.led, or workings why --from battery.middle.capacity");
  if (name === "watch" && json) throw usage("watch has no --json: the page and the terminal show what it does");
  if (name === "vary" && rest.length === 0) throw usage('vary takes changes, as in: workings vary "rails.positive.voltage=5 V ±2 %"');
  if (name === "compare" && rest.length !== 2) throw usage("compare takes two revisions, as in: workings compare HEAD .");
  if (name === "compare" && json && values.markdown === true) throw usage("compare gives Markdown or JSON, not both");
  if (name === "reference" && rest.length > 0) throw usage("reference takes no names: it tells every formula and model");
  for (const [option, takers] of Object.entries(only)) {
    if (values[option as keyof typeof values] !== undefined && !takers.includes(name))
      throw usage(`--${option} belongs to the command ${takers.join(" or ")}`);
  }
  if (values.from !== undefined && (values.coverage ?? values.beside) !== undefined)
    throw usage("--coverage and --beside ask about a result, as in: workings why battery.runtime --coverage 0.99; leave --from out");
  const coverage = positive("coverage", values.coverage);
  if (coverage !== undefined && coverage >= 1) throw usage(`--coverage must be a share below 1, such as 0.99, got "${values.coverage}"`);
  const timeout = positive("timeout", values.timeout),
    heap = positive("heap", values.heap),
    jobs = positive("jobs", values.jobs),
    port = portOf(values.port);
  if (jobs !== undefined && !Number.isInteger(jobs)) throw usage(`--jobs must be a whole number, got "${values.jobs}"`);
  return {
    name,
    words: rest,
    options: {
      json,
      all: values.all === true,
      ...(book !== undefined && { book }),
      ...(design !== undefined && { design }),
      ...(output !== undefined && { output }),
      ...(values.from !== undefined && { from: values.from }),
      ...(coverage !== undefined && { coverage }),
      ...(values.beside !== undefined && { beside: values.beside }),
      ...(values.strict === true && { strict: true }),
      ...(values.pdf === true && { pdf: true }),
      ...(values.csv === true && { csv: true }),
      ...(values.markdown === true && { markdown: true }),
      ...(values.stale === true && { stale: true }),
      ...(port !== undefined && { port }),
      ...(timeout !== undefined && { timeout: timeout * 1000 }),
      ...(heap !== undefined && { heap }),
      ...(jobs !== undefined && { jobs }),
    },
  };
}

function parse(words: readonly string[]) {
  try {
    return parseArgs({ args: [...words], options: flags, allowPositionals: true });
  } catch (error) {
    throw usage((error as Error).message);
  }
}

function positive(name: string, text: string | undefined): number | undefined {
  if (text === undefined) return undefined;
  const value = Number(text);
  if (Number.isFinite(value) && value > 0) return value;
  throw usage(`--${name} must be a number above 0, got "${text}"`);
}

function portOf(text: string | undefined): number | undefined {
  const port = positive("port", text);
  if (port === undefined || (Number.isInteger(port) && port <= 65_535)) return port;
  throw usage(`--port must be a whole number from 1 to 65535, got "${text}"`);
}

function usage(message: string): WorkingsError {
  return new WorkingsError("usage", `${message}\nworkings --help shows what there is`);
}
