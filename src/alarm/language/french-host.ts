import type { Unrecorded } from '../facts.ts';
import { reasonText, type Reason } from '../reason.ts';
import { channelName } from './channel-names.ts';
import { shortened, type HostTexts } from './language.ts';

const WAY = { faster: 'plus vite', slower: 'plus lentement' } as const;
const others = (names: readonly string[]): string =>
  names.length === 0
    ? ''
    : ` De même : ${shortened(names.map((name) => channelName(name, 'fr')).join(', '))}.`;
const lostWords = (lost: number): string => (lost === 0 ? '' : ` Lignes perdues : ${lost}.`);

/** Alarms about the host itself. */
export const frenchHost: HostTexts = (since, style) => {
  const why = (reason: Reason): string => shortened(reasonText(reason, style));
  const unrecorded = (journal: Unrecorded): string =>
    journal.kind === 'behind'
      ? `Le disque est lent : ${journal.entries} lignes attendent, la plus ancienne depuis ${journal.minutes} min.`
      : `Rien n'est enregistré ${since(journal.since)} : ${why(journal.why)}.${lostWords(journal.lost)}`;
  return {
    cards: {
      'channel-dead': (facts) => ({
        cause: `Personne n'est joignable par ${channelName(facts.name, 'fr')} ${since(facts.since)} : ${why(facts.why)}.${others(facts.others)}`,
        consequence: "Une alarme peut n'atteindre personne.",
        firstAction: "Voyez ce qu'il y a, et surveillez la serre en attendant.",
      }),
      'not-recording': ({ journal }) => ({
        cause: unrecorded(journal),
        consequence: 'Arrosages et alarmes continuent, mais un redémarrage peut les oublier.',
        firstAction: "Voyez si le disque de l'ordinateur est plein ou usé.",
      }),
      'safe-mode': (facts) => ({
        cause: `L'ordinateur tourne au minimum, après ${facts.restarts} démarrages : ${why(facts.why)}.`,
        consequence:
          "Les arrosages et les appels continuent ; s'il s'arrête encore, personne n'est appelé jusqu'à son retour.",
        firstAction: "Voyez ce qui a été changé en dernier, annulez-le, puis redémarrez l'ordinateur.",
      }),
      'past-unread': (facts) => ({
        cause:
          facts.why === 'late'
            ? "Le journal de ce qui était connu avant ce démarrage n'est pas encore ouvert."
            : 'Ce qui était connu avant ce démarrage ne peut pas être lu.',
        consequence: `La pompe reste arrêtée ${facts.heldMinutes} min et pas plus, car personne ne sait si quelqu'un l'a arrêtée ; des alarmes d'avant peuvent être oubliées.`,
        firstAction:
          "Mains hors de l'eau et sèches ; puis débranchez la pompe, ou arrêtez-la de nouveau. Voyez ensuite le disque de l'ordinateur.",
      }),
      'clock-drift': (facts) => ({
        cause: `L'horloge de la carte va ${facts.percent.toFixed(0)} % ${WAY[facts.way]} que celle de l'ordinateur ${since(facts.since)}.`,
        consequence: 'Les arrosages que la carte donne seule viennent aux mauvaises heures.',
        firstAction: "Changez la carte quand vous pourrez ; en attendant, l'ordinateur garde l'heure.",
      }),
    },
    briefs: {
      'channel-dead': (facts) => ({
        what: `Personne joignable par ${channelName(facts.name, 'fr')} ${since(facts.since)}, une alarme peut se perdre`,
        act: 'Voyez-le, et surveillez la serre',
      }),
      'not-recording': ({ journal }) => ({
        what:
          journal.kind === 'behind'
            ? `Disque lent, ${journal.entries} lignes attendent`
            : `Rien n'est enregistré ${since(journal.since)}`,
        act: "Voyez si le disque de l'ordinateur est plein ou usé",
      }),
      'safe-mode': (facts) => ({
        what: `Ordinateur au minimum : ${why(facts.why)}`,
        act: 'Annulez le dernier changement, puis redémarrez',
      }),
      'past-unread': (facts) => ({
        what:
          facts.why === 'late'
            ? 'Journal pas encore ouvert : arrêts inconnus'
            : "Arrêts et alarmes d'avant perdus",
        act: `Mains hors de l'eau, sèches ; puis débranchez. La pompe n'attend que ${facts.heldMinutes} min`,
      }),
      'clock-drift': (facts) => ({
        what: `L'horloge de la carte va ${facts.percent.toFixed(0)} % ${WAY[facts.way]}`,
        act: 'Changez la carte quand vous pourrez',
      }),
    },
  };
};
