/** What the local server of `workings watch` shows as long as no document could be made. */
import { contentPolicy, inline } from "./policy";
import type { WatchAssets } from "./render-page";
import { html, trusted } from "./text/html";

export function waitingPage(watch: WatchAssets): string {
  const script = inline(watch.script, "script");
  const style = inline(watch.style, "style");
  return html`<!doctype html>
<html lang="en"><head><meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${contentPolicy([script], [style], "'self'")}">
<meta name="viewport" content="width=device-width, initial-scale=1"><meta name="color-scheme" content="light dark"><meta name="referrer" content="no-referrer">
<title>No document yet</title><style>${trusted(style)}</style></head>
<body><main id="content"><h1>No document yet</h1><p>It appears here as soon as the book can be read and its sheets have run.</p></main>
<script>${trusted(script)}</script></body></html>
`.text;
}
