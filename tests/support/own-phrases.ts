import { readFileSync } from 'node:fs';
import ts from 'typescript';

/** A phrase of a source file: its fixed parts, with a hole between each two. */
export interface OwnPhrase {
  readonly file: string;
  readonly parts: readonly string[];
}

/** What is said by these is no reason: what went well, what the terminal is told, what is a defect. */
const OTHER_WORDS: ReadonlySet<string> = new Set(['sent', 'talk', 'assert']);

const partsOf = (node: ts.Node): readonly string[] | null => {
  if (ts.isStringLiteral(node) || ts.isNoSubstitutionTemplateLiteral(node)) return [node.text];
  if (!ts.isTemplateExpression(node)) return null;
  return [node.head.text, ...node.templateSpans.map(({ literal }) => literal.text)];
};

const isOtherWords = (node: ts.Node): boolean =>
  (ts.isCallExpression(node) && ts.isIdentifier(node.expression) && OTHER_WORDS.has(node.expression.text)) ||
  ts.isImportDeclaration(node) ||
  ts.isTypeNode(node);

/** Words in the middle of a sentence, as all reasons are: a small letter first, or a hole, and more than one word. */
const isReasonLike = (parts: readonly string[]): boolean => {
  const text = parts.join('{}');
  return /^[a-z"{]/.test(text) && /[a-z]/.test(text) && text.includes(' ');
};

/** Every phrase of a file that may be a reason. */
export const ownPhrases = (file: string): readonly OwnPhrase[] => {
  const found: OwnPhrase[] = [];
  const look = (node: ts.Node): void => {
    if (isOtherWords(node)) return;
    const parts = partsOf(node);
    if (parts !== null && isReasonLike(parts)) found.push({ file, parts });
    ts.forEachChild(node, look);
  };
  look(ts.createSourceFile(file, readFileSync(file, 'utf8'), ts.ScriptTarget.Latest, true));
  return found;
};
