/** The page's program. In the document it opens the page; in a worker, which is made from the same text, it evaluates. */
import "../../physics";
import type { DocumentBook } from "../model/book-data";
import { byId } from "./dom";
import { keepView } from "./links";
import { nameShown } from "./live-elements";
import type { Reply, Request } from "./messages";
import { openPage } from "./page";
import { openPages } from "./pages";
import { openRail } from "./rail";
import { openTips } from "./tips";
import { unpacked } from "./unpacked";
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
  const program = document.currentScript?.textContent ?? "";
  const address = URL.createObjectURL(new Blob([program], { type: "text/javascript" }));
  const workers = Array.from({ length: workerCount(navigator.hardwareConcurrency) }, () => new Worker(address));
  void unpacked(byId("book").textContent ?? "").then((text) => {
    const { shown, ...book } = JSON.parse(text) as DocumentBook;
    nameShown(shown);
    Object.defineProperty(window, "workings", { value: Object.freeze(openPage(book, workers)) });
  });
}
