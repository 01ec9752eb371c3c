/**
 * Hands the document to a browser on this machine, and to nobody else: it listens on 127.0.0.1 alone, its address holds a random token,
 * and a request for another host (a name that was made to lead here) or from another site's page is refused.
 */
import { createHash, randomBytes, timingSafeEqual } from "node:crypto";
import { createServer, type IncomingMessage, type Server, type ServerResponse } from "node:http";
import type { AddressInfo } from "node:net";
import { watchAssets } from "../../document/assets";
import { waitingPage } from "../../document/waiting-page";
import { WorkingsError } from "../../quantity/error";
import type { Problem } from "./round";

const host = "127.0.0.1";

/** What the page is told; lib/document/page/watched.ts shows it. */
export interface Told {
  readonly words: string;
  readonly problems: readonly Problem[];
  readonly isGood: boolean;
}

/** Between two signs of life to a page that waits, ms. */
const heartbeat = 15_000;

export class DocumentServer {
  private readonly token = randomBytes(18).toString("base64url");
  private readonly pages = new Set<ServerResponse>();
  private readonly beat = setInterval(() => this.send(": \n\n"), heartbeat);
  private document = waitingPage(watchAssets());
  private version = 0;
  private told: Told = { words: "The sheets are read…", problems: [], isGood: true };

  private constructor(private readonly server: Server) {
    server.on("request", (request, response) => this.answer(request, response));
    this.beat.unref();
  }

  /** Throws WorkingsError "usage" where the port cannot be had. No port: a free one. */
  static async start(port = 0): Promise<DocumentServer> {
    const server = createServer();
    await new Promise<void>((resolve, reject) => {
      server.once("error", (error: NodeJS.ErrnoException) => reject(refused(port, error)));
      server.listen({ port, host }, resolve);
    });
    return new DocumentServer(server);
  }

  get address(): string {
    return `${this.origin}/${this.token}/`;
  }

  /** Returns false where it is the one that is shown already. */
  show(document: string): boolean {
    if (document === this.document) return false;
    this.document = document;
    this.version++;
    return true;
  }

  tell(told: Told): void {
    this.told = told;
    this.send(this.message());
  }

  /** Says goodbye to every page, and closes. */
  async close(): Promise<void> {
    clearInterval(this.beat);
    this.send("event: end\ndata: \n\n");
    for (const page of this.pages) page.end();
    const closed = new Promise((resolve) => this.server.close(resolve));
    this.server.closeIdleConnections();
    setTimeout(() => this.server.closeAllConnections(), 200).unref();
    await closed;
  }

  private get origin(): string {
    return `http://${host}:${(this.server.address() as AddressInfo).port}`;
  }

  private answer(request: IncomingMessage, response: ServerResponse): void {
    const reason = this.reasonToRefuse(request);
    const path = (request.url ?? "").replace(/\?.*$/, "").slice(this.token.length + 1);
    if (reason !== undefined) say(response, 403, reason);
    else if (request.method !== "GET" && request.method !== "HEAD") say(response, 405, "only GET and HEAD are answered here");
    else if (path === "/") reply(response, 200, "text/html", this.document.replace("<html ", `<html data-version="${this.version}" `));
    else if (path === "/events") this.open(request, response);
    else say(response, 404, "there is only the document here, and its events");
  }

  /** A name that another site lets lead to this machine stands in the host header; a page of another site names itself as origin. */
  private reasonToRefuse({ headers, url = "" }: IncomingMessage): string | undefined {
    if (`http://${headers.host}` !== this.origin) return "this server answers to its own address alone";
    if (headers.origin !== undefined && headers.origin !== this.origin) return "pages of other sites are not answered";
    return isSame(url.split(/[/?]/)[1] ?? "", this.token) ? undefined : "the address lacks the token that workings watch has printed";
  }

  private open(request: IncomingMessage, response: ServerResponse): void {
    response.writeHead(200, { ...headers, "Content-Type": "text/event-stream" });
    if (request.method === "HEAD") {
      response.end();
      return;
    }
    response.write(this.message());
    this.pages.add(response);
    response.on("close", () => this.pages.delete(response));
  }

  private message(): string {
    return `data: ${JSON.stringify({ version: this.version, ...this.told })}\n\n`;
  }

  private send(text: string): void {
    for (const page of this.pages) page.write(text);
  }
}

const headers = {
  "Cache-Control": "no-store",
  // What a policy inside the document cannot say.
  "Content-Security-Policy": "frame-ancestors 'none'",
  "Cross-Origin-Resource-Policy": "same-origin",
  "Cross-Origin-Opener-Policy": "same-origin",
  "Referrer-Policy": "no-referrer",
  "X-Content-Type-Options": "nosniff",
} as const;

function reply(response: ServerResponse, status: number, type: string, text: string): void {
  response.writeHead(status, { ...headers, "Content-Type": `${type}; charset=utf-8` });
  response.end(text);
}

function say(response: ServerResponse, status: number, sentence: string): void {
  reply(response, status, "text/plain", `${sentence}\n`);
}

/** In a time that does not tell how much of it is right. */
function isSame(one: string, other: string): boolean {
  const digest = (text: string) => createHash("sha256").update(text).digest();
  return timingSafeEqual(digest(one), digest(other));
}

function refused(port: number, { code, message }: NodeJS.ErrnoException): WorkingsError {
  const why =
    code === "EADDRINUSE"
      ? "another program listens there"
      : code === "EACCES"
        ? "this account may not listen there (ports below 1024 are the system's)"
        : message;
  return new WorkingsError("usage", `cannot serve on ${host}, port ${port}: ${why}; name another --port, or none for a free one`);
}
