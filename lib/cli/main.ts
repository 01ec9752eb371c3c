/** Entry of the command line. Loaded by a test it starts nothing, and gives what a command is called with. */
import { main } from "./commands";
import { Interrupt } from "./interrupt";
import { processStreams, streamsTo, written } from "./streams";

export { main, streamsTo };

if (require.main === module) {
  const interrupt = new Interrupt();
  void main(process.argv.slice(2), processStreams(), interrupt).then(async (code) => {
    await written();
    process.exitCode = interrupt.exitCode ?? code;
  });
}
