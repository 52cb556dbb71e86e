/** What a modem says, cut into lines; whatever is not one yet is kept back. */
export interface AtLines {
  /** Lines that have come to their end. An empty one counts: the body of a text may be empty. */
  readonly take: (bytes: Uint8Array) => readonly string[];
  /** Whether the modem waits for the words of a text: `> ` without an end of line (3GPP TS 27.005, 3.5.1). */
  readonly isPrompt: () => boolean;
  readonly clear: () => void;
}

/** No line of a modem is longer; an endless one is noise, or another device. */
const LINE_LETTERS_MAX = 2048;

export const atLines = (): AtLines => {
  let rest = '';
  return {
    take: (bytes) => {
      // One byte, one letter: a modem that speaks something else is told by its words, not by an error here.
      rest += Buffer.from(bytes).toString('latin1').replaceAll('\0', '');
      const lines = rest.split('\n');
      rest = (lines.pop() ?? '').slice(-LINE_LETTERS_MAX);
      return lines.map((line) => line.replace(/^\r+|\r+$/g, '').slice(-LINE_LETTERS_MAX));
    },
    isPrompt: () => /(?:^|\r)> ?$/.test(rest),
    clear: () => {
      rest = '';
    },
  };
};
