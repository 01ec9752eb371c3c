/** Finds where JSON text stops being JSON: what `JSON.parse` does not tell on every version of Node. RFC 8259. */

interface JsonFault {
  readonly offset: number;
  /** What the grammar allows there. */
  readonly expected: string;
}

/** The first fault of a text that `JSON.parse` has refused. */
export function jsonFault(text: string): JsonFault {
  const reader = new Reader(text);
  try {
    reader.value();
    reader.end();
  } catch (fault) {
    if (fault instanceof Stop) return { offset: fault.offset, expected: fault.expected };
    if (!(fault instanceof RangeError)) throw fault;
    return { offset: reader.offset, expected: "fewer levels of nesting" };
  }
  return { offset: text.length, expected: "no more text" };
}

class Stop {
  constructor(
    readonly offset: number,
    readonly expected: string,
  ) {}
}

class Reader {
  offset = 0;

  constructor(private readonly text: string) {}

  value(): void {
    this.take(/[ \t\n\r]*/y);
    const next = this.text[this.offset];
    if (next === "{") this.list("}", "a member in double quotes, or }", () => this.member());
    else if (next === "[") this.list("]", "a value, or ]", () => this.value());
    else if (next === '"') this.string();
    else if (!this.take(/true|false|null|-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?/y)) throw new Stop(this.offset, "a value");
    this.take(/[ \t\n\r]*/y);
  }

  end(): void {
    if (this.offset < this.text.length) throw new Stop(this.offset, "the end of the file");
  }

  private list(close: string, first: string, item: () => void): void {
    this.offset += 1;
    this.take(/[ \t\n\r]*/y);
    if (this.text[this.offset] === close) {
      this.offset += 1;
      return;
    }
    if (this.offset === this.text.length) throw new Stop(this.offset, first);
    for (;;) {
      item();
      const next = this.text[this.offset];
      if (next !== "," && next !== close) throw new Stop(this.offset, `, or ${close}`);
      this.offset += 1;
      if (next === close) return;
    }
  }

  private member(): void {
    this.take(/[ \t\n\r]*/y);
    this.string();
    this.take(/[ \t\n\r]*/y);
    if (this.text[this.offset] !== ":") throw new Stop(this.offset, ": after the name of a member");
    this.offset += 1;
    this.value();
  }

  private string(): void {
    if (this.text[this.offset] !== '"') throw new Stop(this.offset, "a name in double quotes");
    this.offset += 1;
    while (this.take(/[^"\\\u0000-\u001f]+|\\(?:["\\/bfnrt]|u[\da-fA-F]{4})/y));
    if (this.text[this.offset] !== '"') throw new Stop(this.offset, 'the " that ends the text, or a valid escape');
    this.offset += 1;
  }

  private take(pattern: RegExp): boolean {
    pattern.lastIndex = this.offset;
    const match = pattern.exec(this.text);
    if (match) this.offset = pattern.lastIndex;
    return match !== null && match[0] !== "";
  }
}
