import type { Unrecorded } from '../facts.ts';
import { reasonText, type Reason } from '../reason.ts';
import { channelName } from './channel-names.ts';
import { shortened, type HostTexts } from './language.ts';

const WAY = { faster: 'más deprisa', slower: 'más despacio' } as const;
const others = (names: readonly string[]): string =>
  names.length === 0
    ? ''
    : ` Lo mismo con: ${shortened(names.map((name) => channelName(name, 'es')).join(', '))}.`;
const lostWords = (lost: number): string => (lost === 0 ? '' : ` Registros perdidos: ${lost}.`);

/** Alarms about the host itself. */
export const spanishHost: HostTexts = (since, style) => {
  const why = (reason: Reason): string => shortened(reasonText(reason, style));
  const unrecorded = (journal: Unrecorded): string =>
    journal.kind === 'behind'
      ? `El disco va lento: ${journal.entries} registros esperan, el más antiguo desde hace ${journal.minutes} min.`
      : `No se registra nada ${since(journal.since)}: ${why(journal.why)}.${lostWords(journal.lost)}`;
  return {
    cards: {
      'channel-dead': (facts) => ({
        cause: `No se llega a nadie por ${channelName(facts.name, 'es')} ${since(facts.since)}: ${why(facts.why)}.${others(facts.others)}`,
        consequence: 'Una alarma puede no llegar a nadie.',
        firstAction: 'Mire qué pasa, y entretanto vigile el invernadero.',
      }),
      'not-recording': ({ journal }) => ({
        cause: unrecorded(journal),
        consequence: 'Riegos y alarmas siguen, pero un reinicio puede olvidarlos.',
        firstAction: 'Mire si el disco del ordenador está lleno o gastado.',
      }),
      'safe-mode': (facts) => ({
        cause: `El ordenador funciona con lo mínimo, tras ${facts.restarts} arranques: ${why(facts.why)}.`,
        consequence:
          'Los riegos y los avisos siguen; si se para otra vez, no se avisa a nadie hasta que vuelva.',
        firstAction: 'Mire qué se cambió por último, deshágalo, luego reinicie el ordenador.',
      }),
      'past-unread': (facts) => ({
        cause:
          facts.why === 'late'
            ? 'El registro de lo que se sabía antes de este arranque aún no se ha abierto.'
            : 'Lo que se sabía antes de este arranque no se puede leer.',
        consequence: `La bomba queda parada ${facts.heldMinutes} min y no más, pues nadie sabe si alguien la mandó parar; las alarmas de antes pueden quedar olvidadas.`,
        firstAction:
          'Manos fuera del agua y secas; después desenchufe la bomba, o mándela parar otra vez. Luego mire el disco del ordenador.',
      }),
      'clock-drift': (facts) => ({
        cause: `El reloj de la placa va ${facts.percent.toFixed(0)} % ${WAY[facts.way]} que el del ordenador ${since(facts.since)}.`,
        consequence: 'Los riegos que da la placa sola llegan a horas equivocadas.',
        firstAction: 'Cambie la placa cuando pueda; entretanto el ordenador lleva la hora.',
      }),
    },
    briefs: {
      'channel-dead': (facts) => ({
        what: `Nadie localizable por ${channelName(facts.name, 'es')} ${since(facts.since)}, una alarma puede no llegar`,
        act: 'Mírelo, y vigile el invernadero',
      }),
      'not-recording': ({ journal }) => ({
        what:
          journal.kind === 'behind'
            ? `Disco lento, ${journal.entries} registros esperan`
            : `No se registra nada ${since(journal.since)}`,
        act: 'Mire si el disco del ordenador está lleno o gastado',
      }),
      'safe-mode': (facts) => ({
        what: `Ordenador al mínimo: ${why(facts.why)}`,
        act: 'Deshaga el último cambio, luego reinicie',
      }),
      'past-unread': (facts) => ({
        what:
          facts.why === 'late'
            ? 'Registro aún cerrado: paradas desconocidas'
            : 'Paradas y alarmas de antes perdidas',
        act: `Manos fuera del agua, secas; después desenchufe. La bomba solo espera ${facts.heldMinutes} min`,
      }),
      'clock-drift': (facts) => ({
        what: `Reloj de la placa va ${facts.percent.toFixed(0)} % ${WAY[facts.way]}`,
        act: 'Cambie la placa cuando pueda',
      }),
    },
  };
};
