/** Entry of the command line. */
import { main } from "./commands";
import { Interrupt } from "./interrupt";
import { processStreams, written } from "./streams";

const interrupt = new Interrupt();
void main(process.argv.slice(2), processStreams(), interrupt).then(async (code) => {
  await written();
  process.exitCode = interrupt.exitCode ?? code;
});
