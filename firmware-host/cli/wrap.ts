/** A space at which a line may end: not the one between a number and its unit. */
const BREAK = /(?<!\d) | (?!(?:min|h|L|kWh|mS\/cm|°C|%)(?:[^a-z]|$))/;

/**
 * Breaks text at spaces so that no line is longer than `columns`; lines after the first begin with `indent`
 * spaces. A word longer than a line stands alone on it. Breaks already in the text stay.
 */
export const wrapped = (text: string, columns: number, indent = 0): string => {
  const margin = ' '.repeat(indent);
  return text
    .split('\n')
    .map((whole) => {
      const lines: string[] = [];
      for (const word of whole.split(BREAK)) {
        const last = lines.pop();
        if (last === undefined) lines.push(word);
        else if (last.length + 1 + word.length <= columns) lines.push(`${last} ${word}`);
        else lines.push(last, `${margin}${word}`);
      }
      return lines.join('\n');
    })
    .join('\n');
};
