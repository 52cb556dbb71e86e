import { open } from 'node:fs/promises';
import { kindAt, refusePlace, refuseWithoutFolder } from '../cli/new-file.ts';
import { Refusal } from '../cli/refusal.ts';
import type { Rehearsal } from '../cli/rehearsal.ts';
import { writeWhole } from '../storage/atomic-file.ts';
import type { Asked } from '../cli/tune-text.ts';
import type { Tuned } from '../tune/tuned.ts';
import type { BucketCard } from '../../src/estimate/bucket-card.ts';
import { cardPage } from './card-page.ts';
import { reportPage } from './page.ts';
import { MARKERS, type ReportKind } from './page-shell.ts';
import { tunePage } from './tune-page.ts';

const refuse = (path: string, what: string): never => refusePlace('--report', path, what);

/** Whether a file begins as our reports of that kind do; no more of it is read. */
const isReport = async (path: string, kind: ReportKind): Promise<boolean> => {
  const marker = MARKERS[kind];
  const file = await open(path, 'r');
  try {
    const begin = Buffer.alloc(marker.length);
    const { bytesRead } = await file.read(begin, 0, begin.length, 0);
    return begin.toString('latin1', 0, bytesRead) === marker;
  } finally {
    await file.close();
  }
};

/**
 * Asked before work of minutes, and again before its page is written.
 * @throws Refusal when the page may not or cannot stand there: only an older report of its kind is ever replaced
 */
export const reportPath = async (path: string, kind: ReportKind): Promise<string> => {
  if (!path.endsWith('.html')) refuse(path, 'does not end in .html; name a page, such as report.html.');
  try {
    refuseWithoutFolder('--report', path);
    const there = kindAt(path);
    if (there === 'nothing') return path;
    if (there !== 'file' || !(await isReport(path, kind)))
      refuse(
        path,
        `is there already and is no ${kind === 'bucket card' ? kind : `${kind} report`}, so it stays; name another file.`,
      );
    return path;
  } catch (error) {
    if (error instanceof Refusal) throw error;
    return refuse(path, `cannot stand there (${(error as Error).message}); name another file.`);
  }
};

/** Writes a page whole or not at all. Null when it stands there, else what went wrong and what to do. */
const written = async (path: string, kind: ReportKind, page: () => string): Promise<string | null> => {
  try {
    await writeWhole(await reportPath(path, kind), page());
    return null;
  } catch (error) {
    if (error instanceof Refusal) return error.message;
    return `--report: ${JSON.stringify(path)} could not be written (${(error as Error).message}); make room or name another file.`;
  }
};

/** The page of a rehearsal. Null when it stands there, else what went wrong and what to do. */
export const writeReport = (path: string, rehearsal: Rehearsal): Promise<string | null> =>
  written(path, 'rehearsal', () => reportPage(rehearsal));

/** The page of a search of plans, likewise. */
export const writeTuneReport = (path: string, asked: Asked, found: Tuned): Promise<string | null> =>
  written(path, 'search', () => tunePage(asked, found));

/** The bucket card, likewise. */
export const writeCardPage = (path: string, card: BucketCard): Promise<string | null> =>
  written(path, 'bucket card', () => cardPage(card));
