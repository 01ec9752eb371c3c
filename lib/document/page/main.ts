/** The page's program. In the document it opens the page; in a worker, which is made from the same text, it evaluates. */
import "../../physics";
import type { PublishedBook } from "../model/book-data";
import { byId } from "./dom";
import { keepView } from "./links";
import type { Reply, Request } from "./messages";
import { openPage } from "./page";
import { openPages } from "./pages";
import { openRail } from "./rail";
import { openTips } from "./tips";
import { openViews } from "./views";
import { startWorker } from "./worker";
import { workerCount } from "./workers";

if (typeof document === "undefined") {
  const scope = self as unknown as { postMessage(reply: Reply): void; addEventListener: typeof self.addEventListener };
  startWorker(
    (reply) => scope.postMessage(reply),
    (listen) => scope.addEventListener("message", (event) => listen((event as MessageEvent<Request>).data)),
  );
} else {
  openViews(keepView);
  openPages();
  openRail();
  openTips();
  const program = byId("program").textContent ?? "";
  const address = URL.createObjectURL(new Blob([program], { type: "text/javascript" }));
  const workers = Array.from({ length: workerCount(navigator.hardwareConcurrency) }, () => new Worker(address));
  void bookOf(byId("book").textContent ?? "").then((book) => {
    Object.defineProperty(window, "workings", { value: Object.freeze(openPage(book, workers)) });
  });
}

/** The book's data: JSON, deflated, in base64. */
async function bookOf(text: string): Promise<PublishedBook> {
  const bytes = Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0));
  const inflated = new Blob([bytes]).stream().pipeThrough(new DecompressionStream("deflate-raw"));
  return (await new Response(inflated).json()) as PublishedBook;
}
