/**
 * Our Jupyter kernel: tslab's, with the mends of tslab.ts, the types of the library loaded before the first cell, the
 * running cell told to the library, and errors as Jupyter's own error outputs, framed with the cell's source.
 * An interrupt ends a cell that computes or waits; one that computes on after it has waited (a loop behind an `await` of
 * the same cell) Node cannot interrupt: only a restart of the kernel ends it.
 */
import { createRequire } from "node:module";
import { basename, join } from "node:path";
import type { Executor } from "tslab/dist/executor";
import { terminalText } from "../quantity/terminal-text";
import type { RunningCell } from "../sheet/emit";
import { compileFailure, type Scene, throwFailure } from "./failure";
import type { CodeCell } from "./notebook";
import { framesOf, scriptName } from "./positions";
import type { Failure } from "./protocol";
import { formatSheetError, sheetError } from "./sheet-error";
import { type CellRun, type Outcome, openTslab } from "./tslab";
import { endWithParent } from "./watchdog";

/** The parts of tslab/dist/jupyter.js that are used: some are private in its declarations. */
interface Envelope {
  readonly header: { msg_type: string };
  readonly metadata: { readonly cellId?: unknown };
  content: object;
  createReply(): Envelope;
  signAndSend(key: string, socket: unknown): void;
}
interface ExecuteRequest {
  readonly code: string;
}
interface Reply {
  status: string;
  execution_count?: number;
}
interface Handler {
  handleExecute(request: ExecuteRequest, stream: unknown, display: unknown): Promise<Reply>;
  handleExecuteImpl(request: ExecuteRequest, stream: unknown, display: unknown): Promise<unknown>;
  close(): void;
}
interface Server {
  readonly connInfo: { readonly key: string };
  readonly iopub: unknown;
  handler: Handler;
  handleExecute(socket: unknown, message: Envelope): Promise<void>;
  init(): Promise<void>;
}
interface Jupyter {
  readonly JupyterHandlerImpl: new (executor: Executor, isJs: boolean) => Handler;
  readonly ZmqServer: new (handler: Handler, connection: string) => Server;
}

/** What first cells begin with: each of these loads types that would otherwise be waited for. */
const opening = `import { worksheet } from "workings";
import { light } from "workings/physics";
import { volt } from "workings/units";
const sheet = worksheet("x");
sheet.given({ V: ["x", volt] });`;

/** Serves the front end whose connection file is given, until it says shutdown. */
export async function serveJupyter(connection: string): Promise<void> {
  // Said by a front end that means its kernels to end with it, also where it is killed.
  if (process.env.JPY_PARENT_PID !== undefined) endWithParent();
  const tslab = openTslab(require, { watch: true });
  const session = new JupyterSession(tslab.open());
  const server = newServer(require("tslab/dist/jupyter") as Jupyter, session, connection);
  process.on("SIGINT", () => session.executor.interrupt());
  process.on("uncaughtException", (error) => console.error(session.told(throwFailure("throw", error, session.scene()))));
  process.on("unhandledRejection", (reason) => console.error(session.told(throwFailure("rejection", reason, session.scene()))));
  tslab.warm(opening);
  preload();
  await server.init();
}

/** Loads the library as cells will find it. Where that fails, the cell that imports it is told so in its own place. */
function preload(): void {
  try {
    createRequire(join(process.cwd(), "cell.js"))("workings");
  } catch {}
}

class JupyterSession {
  /** As tslab's executor, but a failure is kept instead of printed. */
  readonly executor: Executor;
  failure: Failure | undefined;
  /** Cells in the order of execution: the number in brackets, counted from 1, less one. */
  private readonly cells: CodeCell[] = [];
  private cellId: string | undefined;
  /** The last execution of each cell, by its id. */
  private readonly executed = new Map<string, RunningCell>();

  constructor(private readonly run: CellRun) {
    this.executor = { ...run.executor, execute: (source) => this.execute(source) };
  }

  /** Front ends that tell the cell's id let the library see which cell is run again. */
  starts(cellId: unknown): void {
    this.cellId = typeof cellId === "string" ? cellId : undefined;
    const notebook = basename(process.env.JPY_SESSION_NAME ?? "");
    const running: RunningCell = {
      notebook,
      index: this.count + 1,
      ...(this.cellId !== undefined && { id: this.cellId }),
      places: (stack) => framesOf(stack, this.run.maps),
    };
    if (this.cellId !== undefined) {
      const earlier = this.executed.get(this.cellId);
      if (earlier !== undefined) earlier.superseded = true;
      this.executed.set(this.cellId, running);
    }
    Object.assign(globalThis, { [Symbol.for("workings.cell")]: running });
  }

  get count(): number {
    return this.cells.length;
  }

  scene(): Scene {
    return { cell: this.count, maps: this.run.maps };
  }

  /** Front ends show a cell's number, never its id. */
  told(failure: Failure): string {
    const { id: _, ...error } = sheetError("this notebook", failure, this.cells, "");
    return terminalText(formatSheetError(error));
  }

  private async execute(source: string): Promise<boolean> {
    const id = this.cellId ?? `${this.count + 1}`;
    this.cells.push({ cell_type: "code", id, metadata: {}, source, outputs: [], execution_count: null });
    this.failure = undefined;
    const { locals } = this.executor;
    const before = { ...locals };
    const outcome = await this.run.execute(source, scriptName(this.count));
    if (outcome.ok) return true;
    // The compiler, too, goes on from the names as they were before the cell that failed.
    for (const name of definedAnew(outcome.converted?.output ?? "")) if (name in before) locals[name] = before[name];
    this.failure = this.failureOf(outcome);
    return false;
  }

  private failureOf({ converted, thrown }: Outcome): Failure {
    if (isInterrupt(thrown)) return { kind: "interrupted", cell: this.count, message: interrupted };
    return compileFailure(converted, this.count) ?? throwFailure("throw", thrown, this.scene());
  }
}

function newServer({ JupyterHandlerImpl, ZmqServer }: Jupyter, session: JupyterSession, connection: string): Server {
  const messages = new WeakMap<ExecuteRequest, Envelope>();

  class OwnHandler extends JupyterHandlerImpl {
    override async handleExecuteImpl(request: ExecuteRequest, stream: unknown, display: unknown): Promise<unknown> {
      const message = messages.get(request);
      session.starts(message?.metadata.cellId);
      if (message) publish(message, "execute_input", { code: request.code, execution_count: session.count + 1 });
      return super.handleExecuteImpl(request, stream, display);
    }

    override async handleExecute(request: ExecuteRequest, stream: unknown, display: unknown): Promise<Reply> {
      const reply = await super.handleExecute(request, stream, display);
      if (reply.status === "abort") return { ...reply, status: "aborted" };
      const { failure } = session;
      if (reply.status !== "error" || failure === undefined) return reply;
      const error = { ...named(failure), traceback: session.told(failure).split("\n") };
      const message = messages.get(request);
      if (message) publish(message, "error", error);
      return { ...reply, ...error };
    }

    override close(): void {
      super.close();
      // A cell's open timer or connection must not keep the kernel alive; the reply is on its way.
      setTimeout(() => process.exit(0), 200);
    }
  }

  class OwnServer extends ZmqServer {
    override handleExecute(socket: unknown, message: Envelope): Promise<void> {
      messages.set(message.content as ExecuteRequest, message);
      return super.handleExecute(socket, message);
    }
  }

  const server = new OwnServer(new OwnHandler(session.executor, false), connection);
  const publish = (message: Envelope, type: string, content: object): void => {
    const sent = message.createReply();
    sent.header.msg_type = type;
    sent.content = content;
    sent.signAndSend(server.connInfo.key, server.iopub);
  };
  return server;
}

/** The names that a cell defines: its compiled text begins by taking away what they stood for. */
function definedAnew(code: string): string[] {
  const [line = ""] = /^exports\.\S+ = .*void 0;$/m.exec(code) ?? [];
  return [...line.matchAll(/exports\.([^\s=]+) = /g)].flatMap(([, name]) => name ?? []);
}

const interrupted = "interrupted; what the cell would have defined is not known to other cells: run it again";

/** As Node tells of a cell that computed, and tslab of one that waited. */
function isInterrupt(thrown: unknown): boolean {
  if (!(thrown instanceof Error)) return false;
  return (thrown as NodeJS.ErrnoException).code === "ERR_SCRIPT_EXECUTION_INTERRUPTED" || thrown.message === "Interrupted asynchronously";
}

/** Front ends set the name before the message. */
function named({ kind, message }: Failure): { readonly ename: string; readonly evalue: string } {
  if (kind === "compile") return { ename: "TypeScript", evalue: message };
  if (kind === "interrupted") return { ename: "Interrupted", evalue: message };
  const [prefix, ename] = /^([A-Z]\w*Error|Error): /.exec(message) ?? ["", "Error"];
  return { ename: ename ?? "Error", evalue: message.slice(prefix.length) };
}
