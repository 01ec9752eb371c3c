/**
 * Puts the page's program, which the document holds packed, to work; the policy of the document knows its hash. A browser that cannot
 * unpack it shows every page, as one without programs does, and says so.
 */
import { all, byId, make } from "./dom";
import { unpacked } from "./unpacked";

void unpacked(byId("program").textContent ?? "")
  .then((program) => document.body.append(make("script", {}, program)))
  .catch(() => {
    for (const page of all(".page")) page.removeAttribute("hidden");
    const notice = byId("notice");
    notice.textContent =
      "This browser cannot unpack the program of the document, so all pages are shown and no value can be changed. A newer browser can.";
    notice.hidden = false;
  });
