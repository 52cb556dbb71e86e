import type { InFour } from './in-four.ts';

/** Why nothing is recorded, and why the host runs with as little as it can. */
export const JOURNAL_REASONS = {
  'crash-loop': {
    en: 'this host has started {starts} times within {minutes} min without being asked to stop',
    pt: 'arrancou {starts} vezes em {minutes} min sem ninguém o parar',
    es: 'arrancó {starts} veces en {minutes} min sin que nadie lo parase',
    fr: "démarré {starts} fois en {minutes} min sans qu'on l'arrête",
  },
  'crash-loop-undated': {
    en: 'of the last {starts} starts of this host none is known to have lasted {minutes} min',
    pt: 'nenhum dos últimos {starts} arranques terá durado {minutes} min',
    es: 'ninguno de los últimos {starts} arranques habría durado {minutes} min',
    fr: 'aucun des {starts} derniers démarrages ne semble avoir duré {minutes} min',
  },
  'disk-full': {
    en: 'the disk is full',
    pt: 'o disco está cheio',
    es: 'el disco está lleno',
    fr: 'le disque est plein',
  },
  'disk-full-says': {
    en: 'the disk is full: {said}',
    pt: 'o disco está cheio: {said}',
    es: 'el disco está lleno: {said}',
    fr: 'le disque est plein : {said}',
  },
  'disk-hangs': {
    en: 'the disk has not taken anything for {minutes} min',
    pt: 'o disco não aceita nada há {minutes} min',
    es: 'el disco no acepta nada desde hace {minutes} min',
    fr: "le disque n'accepte plus rien depuis {minutes} min",
  },
  'book-not-open': {
    en: 'the book is not open',
    pt: 'o livro de registos não está aberto',
    es: 'el libro de registros no está abierto',
    fr: "le journal n'est pas ouvert",
  },
  'book-thread-ended': {
    en: 'the thread that keeps the book has ended',
    pt: 'a parte do programa que escreve o livro parou',
    es: 'la parte del programa que escribe el libro ha parado',
    fr: "la partie du programme qui tient le journal s'est arrêtée",
  },
  'book-gone': {
    en: 'its log is there, but the book itself is gone',
    pt: 'o livro de registos desapareceu, só ficou o seu diário',
    es: 'el libro de registros ha desaparecido, solo queda su diario',
    fr: 'le journal lui-même a disparu, seul reste son tampon',
  },
  'book-cut-short': {
    en: 'it is cut short: {bytes} bytes are left',
    pt: 'o livro de registos está cortado: restam {bytes} bytes',
    es: 'el libro de registros está cortado: quedan {bytes} bytes',
    fr: 'le journal est tronqué : il en reste {bytes} octets',
  },
  'entry-spoilt': {
    en: 'entry {number} does not fit its check sum',
    pt: 'o registo {number} do livro está estragado',
    es: 'el registro {number} del libro está dañado',
    fr: 'la ligne {number} du journal est abîmée',
  },
  'reading-spoilt': {
    en: 'reading {number} does not fit its check sum',
    pt: 'a leitura {number} do livro está estragada',
    es: 'la lectura {number} del libro está dañada',
    fr: 'la mesure {number} du journal est abîmée',
  },
  'kept-spoilt': {
    en: 'the kept state does not fit its check sum',
    pt: 'o estado guardado no livro está estragado',
    es: 'el estado guardado en el libro está dañado',
    fr: "l'état gardé dans le journal est abîmé",
  },
  'settings-spoilt': {
    en: 'settings in force do not fit their SHA-256',
    pt: 'os ajustes guardados no livro estão estragados',
    es: 'los ajustes guardados en el libro están dañados',
    fr: 'les réglages gardés dans le journal sont abîmés',
  },
  'entries-missing': {
    en: 'entries are missing between others',
    pt: 'faltam registos no meio do livro',
    es: 'faltan registros en medio del libro',
    fr: 'des lignes manquent au milieu du journal',
  },
  'rows-out-of-order': {
    en: 'rows of the book are out of order',
    pt: 'há linhas do livro fora da ordem',
    es: 'hay líneas del libro fuera de orden',
    fr: 'des lignes du journal ne sont pas dans le bon ordre',
  },
  'book-ends-early': {
    en: 'it ends with entry {last}, but entry {known} was on the disk already',
    pt: 'o livro acaba no registo {last}, mas o {known} já estava no disco',
    es: 'el libro acaba en el registro {last}, pero el {known} ya estaba en el disco',
    fr: 'le journal finit à la ligne {last}, mais la {known} était déjà sur le disque',
  },
  'herald-ended': {
    en: 'it ended',
    pt: 'parou',
    es: 'se paró',
    fr: "il s'est arrêté",
  },
} as const satisfies Readonly<Record<string, InFour>>;
