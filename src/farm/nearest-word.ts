import { itemAt } from '../units/assertion.ts';

/** Names in a farm file are short; longer text is no slip of the pen and is not compared. */
const COMPARED_LETTERS_MAX = 60;

/** The least number of letters to insert, drop, change or swap with a neighbour (restricted edits). */
const editsBetween = (from: string, to: string): number => {
  let twoBack: readonly number[] = [];
  let back: readonly number[] = Array.from({ length: to.length + 1 }, (_, column) => column);
  for (let row = 1; row <= from.length; row += 1) {
    const line = [row];
    for (let column = 1; column <= to.length; column += 1) {
      const same = from[row - 1] === to[column - 1];
      const swapped = from[row - 1] === to[column - 2] && from[row - 2] === to[column - 1];
      const choices = [
        itemAt(back, column) + 1,
        itemAt(line, column - 1) + 1,
        itemAt(back, column - 1) + (same ? 0 : 1),
      ];
      if (swapped && row > 1 && column > 1) choices.push(itemAt(twoBack, column - 2) + 1);
      line.push(Math.min(...choices));
    }
    twoBack = back;
    back = line;
  }
  return itemAt(back, to.length);
};

/** The one of `known` that was most likely meant by `word`, or null when none is close. Case is ignored. */
export const nearestWord = (word: string, known: readonly string[]): string | null => {
  if (word.length > COMPARED_LETTERS_MAX) return null;
  const plain = word.toLowerCase();
  let best: { readonly word: string; readonly edits: number } | null = null;
  for (const candidate of known) {
    const editsMax = Math.max(1, Math.floor(candidate.length / 3));
    if (Math.abs(candidate.length - plain.length) > editsMax) continue;
    const edits = editsBetween(plain, candidate.toLowerCase());
    if (edits <= editsMax && (best === null || edits < best.edits)) best = { word: candidate, edits };
  }
  return best?.word ?? null;
};
