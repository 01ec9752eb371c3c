/** Puts the page's program, which the document holds packed, to work; the policy of the document knows its hash. */
import { byId, make } from "./dom";
import { unpacked } from "./unpacked";

void unpacked(byId("program").textContent ?? "").then((program) => document.body.append(make("script", {}, program)));
