import type { LanguageCode } from '../../farm/languages-spoken.ts';
import type { FactsOfKind } from '../facts.ts';
import type { Brief, Told } from './language.ts';

type Facts = FactsOfKind['return-lower'];

const percent = ({ litresPerMinute, usedToBeLitresPerMinute: before }: Facts): string =>
  (100 * (1 - litresPerMinute / before)).toFixed(0);

/** `33 of 41 L/min`; the decimal sign is never needed: what is lost is more than a litre on any loop but a tiny one. */
const flows = (facts: Facts, of: string): string =>
  `${facts.litresPerMinute.toFixed(0)} ${of} ${facts.usedToBeLitresPerMinute.toFixed(0)} L/min`;

const walk = ({ benches }: Facts): string => benches.join(', ');

/** Less comes back than used to: the walk that finds out why, bench by bench. */
export const RETURN_LOWER: Readonly<
  Record<LanguageCode, { readonly card: (facts: Facts) => Told; readonly brief: (facts: Facts) => Brief }>
> = {
  en: {
    card: (facts) => ({
      cause: `The return is ${percent(facts)} % lower than it used to be (${flows(facts, 'of')}).`,
      consequence: 'One inlet or the filter may be blocking; a bench without water shows nowhere else.',
      firstAction: `Pull the plug before you reach in, and put it back after. First walk along the benches during a flood and only look: does water come at each inlet (${walk(facts)})? Then look at the filter and the level of the tank.`,
    }),
    brief: (facts) => ({
      what: `Return ${percent(facts)} % lower than it was (${flows(facts, 'of')})`,
      act: 'Pull the plug before reaching in; see each inlet in a flood, then the filter',
    }),
  },
  pt: {
    card: (facts) => ({
      cause: `O retorno está ${percent(facts)} % mais fraco do que já foi (${flows(facts, 'de')}).`,
      consequence:
        'Pode estar a entupir uma entrada ou o filtro; uma bancada sem água não se nota em mais lado nenhum.',
      firstAction: `Tire a bomba da tomada antes de meter as mãos, e volte a ligá-la no fim. Primeiro percorra as bancadas durante uma rega e só olhe: vem água em cada entrada (${walk(facts)})? Depois veja o filtro e o nível do depósito.`,
    }),
    brief: (facts) => ({
      what: `Retorno ${percent(facts)} % mais fraco que antes (${flows(facts, 'de')})`,
      act: 'Tire a ficha antes de mexer; numa rega veja cada entrada, depois o filtro',
    }),
  },
  es: {
    card: (facts) => ({
      cause: `El retorno es un ${percent(facts)} % menor de lo que era (${flows(facts, 'de')}).`,
      consequence:
        'Puede estar atascándose una entrada o el filtro; una mesa sin agua no se nota en ningún otro sitio.',
      firstAction: `Desenchufe la bomba antes de meter las manos, y vuelva a enchufarla al final. Primero recorra las mesas durante un riego y solo mire: ¿viene agua en cada entrada (${walk(facts)})? Luego mire el filtro y el nivel del depósito.`,
    }),
    brief: (facts) => ({
      what: `Retorno ${percent(facts)} % menor que antes (${flows(facts, 'de')})`,
      act: 'Desenchufe antes de tocar; en un riego mire cada entrada, luego el filtro',
    }),
  },
  fr: {
    card: (facts) => ({
      cause: `Le retour est plus faible de ${percent(facts)} % qu'auparavant (${flows(facts, 'sur')}).`,
      consequence:
        'Une entrée ou le filtre se bouche peut-être ; une table sans eau ne se voit nulle part ailleurs.',
      firstAction: `Débranchez la pompe avant de mettre les mains dans l'eau, et rebranchez-la ensuite. Faites d'abord le tour des tables pendant un arrosage, des yeux seulement : l'eau vient-elle à chaque entrée (${walk(facts)}) ? Puis voyez le filtre et le niveau de la cuve.`,
    }),
    brief: (facts) => ({
      what: `Retour plus faible de ${percent(facts)} % (${flows(facts, 'sur')})`,
      act: 'Débranchez avant de toucher ; en arrosage voyez chaque entrée, puis le filtre',
    }),
  },
};
