/** Of an option that may be given several times: what came before, and this. */
export const collected = (text: string, before: readonly string[]): readonly string[] => [...before, text];
