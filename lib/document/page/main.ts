/** One program, two lives: in the document it opens the page, in a worker made from its own text it evaluates. */
import "../../physics";
import type { BookData } from "../book-data";
import { byId } from "./dom";
import type { Reply, Request } from "./messages";
import { openPage } from "./page";
import { startWorker } from "./worker";

if (typeof document === "undefined") {
  const scope = self as unknown as { postMessage(reply: Reply): void; addEventListener: typeof self.addEventListener };
  startWorker(
    (reply) => scope.postMessage(reply),
    (listen) => scope.addEventListener("message", (event) => listen((event as MessageEvent<Request>).data)),
  );
} else {
  const program = byId("program").textContent ?? "";
  const address = URL.createObjectURL(new Blob([program], { type: "text/javascript" }));
  const book = JSON.parse(byId("book").textContent ?? "") as BookData;
  const workings = openPage(book, new Worker(address));
  Object.defineProperty(window, "workings", { value: Object.freeze(workings) });
}
