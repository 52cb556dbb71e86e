import type { Unrecorded } from '../facts.ts';
import { reasonText, type Reason } from '../reason.ts';
import { channelName } from './channel-names.ts';
import { shortened, type HostTexts } from './language.ts';

const WAY = { faster: 'mais depressa', slower: 'mais devagar' } as const;
const others = (names: readonly string[]): string =>
  names.length === 0
    ? ''
    : ` O mesmo com: ${shortened(names.map((name) => channelName(name, 'pt')).join(', '))}.`;
const lostWords = (lost: number): string => (lost === 0 ? '' : ` Registos perdidos: ${lost}.`);

/** Alarms about the host itself. */
export const portugueseHost: HostTexts = (since, style) => {
  const why = (reason: Reason): string => shortened(reasonText(reason, style));
  const unrecorded = (journal: Unrecorded): string =>
    journal.kind === 'behind'
      ? `O disco está lento: ${journal.entries} registos esperam, o mais antigo há ${journal.minutes} min.`
      : `Nada é registado ${since(journal.since)}: ${why(journal.why)}.${lostWords(journal.lost)}`;
  return {
    cards: {
      'channel-dead': (facts) => ({
        cause: `Não se chega a ninguém por ${channelName(facts.name, 'pt')} ${since(facts.since)}: ${why(facts.why)}.${others(facts.others)}`,
        consequence: 'Um alarme pode não chegar a ninguém.',
        firstAction: 'Veja o que se passa, e entretanto vá olhando pela estufa.',
      }),
      'not-recording': ({ journal }) => ({
        cause: unrecorded(journal),
        consequence: 'Regas e alarmes continuam, mas um reinício pode esquecê-los.',
        firstAction: 'Veja se o disco do computador está cheio ou gasto.',
      }),
      'safe-mode': (facts) => ({
        cause: `O computador trabalha com o mínimo, depois de ${facts.restarts} arranques: ${why(facts.why)}.`,
        consequence: 'As regas e os avisos continuam; se parar de novo, ninguém é avisado até voltar.',
        firstAction: 'Veja o que foi mudado por último, desfaça-o, depois reinicie o computador.',
      }),
      'past-unread': (facts) => ({
        cause:
          facts.why === 'late'
            ? 'O registo do que se sabia antes deste arranque ainda não abriu.'
            : 'O que se sabia antes deste arranque não se consegue ler.',
        consequence: `A bomba fica parada ${facts.heldMinutes} min e não mais, pois ninguém sabe se alguém a mandou parar; alarmes de antes podem ficar esquecidos.`,
        firstAction:
          'Mãos fora da água e secas; depois tire a ficha da bomba da tomada, ou mande-a parar de novo. Por fim veja o disco do computador.',
      }),
      'clock-drift': (facts) => ({
        cause: `O relógio da placa anda ${facts.percent.toFixed(0)} % ${WAY[facts.way]} do que o do computador ${since(facts.since)}.`,
        consequence: 'As regas que a placa dá sozinha vêm a horas erradas.',
        firstAction: 'Troque a placa quando puder; entretanto o computador guarda a hora.',
      }),
    },
    briefs: {
      'channel-dead': (facts) => ({
        what: `Ninguém contactável por ${channelName(facts.name, 'pt')} ${since(facts.since)}, um alarme pode não chegar`,
        act: 'Veja-o, e vá olhando pela estufa',
      }),
      'not-recording': ({ journal }) => ({
        what:
          journal.kind === 'behind'
            ? `Disco lento, ${journal.entries} registos à espera`
            : `Nada é registado ${since(journal.since)}`,
        act: 'Veja se o disco do computador está cheio ou gasto',
      }),
      'safe-mode': (facts) => ({
        what: `Computador no mínimo: ${why(facts.why)}`,
        act: 'Desfaça a última mudança, depois reinicie',
      }),
      'past-unread': (facts) => ({
        what:
          facts.why === 'late'
            ? 'Registo ainda fechado: paragens desconhecidas'
            : 'Paragens e alarmes de antes perdidos',
        act: `Mãos fora da água, secas; depois tire a ficha. A bomba só espera ${facts.heldMinutes} min`,
      }),
      'clock-drift': (facts) => ({
        what: `Relógio da placa anda ${facts.percent.toFixed(0)} % ${WAY[facts.way]}`,
        act: 'Troque a placa quando puder',
      }),
    },
  };
};
