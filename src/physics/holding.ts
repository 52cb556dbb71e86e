/**
 * Water that one plant's cup, roots and film hold back after the channel has drained, in millilitres:
 * 20 mL in the cup, 5 mL of film, 1.5 mL in each gram of fresh root and 1 mL pooled behind it.
 * Engineering judgement, no source: no retention curve of a rooted channel was found in print.
 */
export const heldMillilitresMax = (rootGrams: number): number => 20 + 5 + (1.5 + 1) * rootGrams;
