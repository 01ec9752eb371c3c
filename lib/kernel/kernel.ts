/** A kernel that notebooks share: one process as long as they leave it as it was, a new one whenever they do not. */
import { isDeepStrictEqual } from "node:util";
import { type JobOptions, KernelProcess, type Ran, type Setting } from "./kernel-process";
import type { Job } from "./protocol";

export class Kernel {
  private process: KernelProcess | undefined;

  /** Starts the process that a notebook with this setting will run in, while something else is still to be done. */
  start(setting: Setting): void {
    if (this.waiting(setting) !== undefined) return;
    this.close();
    this.process = new KernelProcess(setting);
  }

  async run(job: Job, setting: Setting, options: JobOptions): Promise<Ran> {
    const waiting = this.waiting(setting);
    if (waiting === undefined) return this.runAnew(job, setting, options);
    const ran = await waiting.run(job, options);
    // It was killed while it waited: the notebook is not to blame.
    if (ran.failure?.kind === "death" && !ran.begun) return this.runAnew(job, setting, options);
    return ran;
  }

  /** Ends the process. */
  close(): void {
    this.process?.close();
    this.process = undefined;
  }

  private waiting(setting: Setting): KernelProcess | undefined {
    return this.process?.isIdle && isDeepStrictEqual(this.process.setting, setting) ? this.process : undefined;
  }

  private runAnew(job: Job, setting: Setting, options: JobOptions): Promise<Ran> {
    this.close();
    this.process = new KernelProcess(setting);
    return this.process.run(job, options);
  }
}
