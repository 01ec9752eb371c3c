/** Entry of the command line. */
import { Interrupt } from "./interrupt";
import { processStreams, written } from "./streams";
import { runUnchanged } from "./unchanged";

const interrupt = new Interrupt();
const words = process.argv.slice(2);
const streams = processStreams();
void start().then(async (code) => {
  await written();
  process.exitCode = interrupt.exitCode ?? code;
});

/** All the rest is a file of its own: loading it takes longer than seeing that nothing has changed. */
async function start(): Promise<number> {
  return runUnchanged(words, streams) ?? (await (await import("./commands.js")).main(words, streams, interrupt));
}
