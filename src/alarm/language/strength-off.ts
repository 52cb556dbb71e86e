import type { LanguageCode } from '../../farm/languages-spoken.ts';
import type { FactsOfKind, Moment } from '../facts.ts';
import { decimalComma, type Brief, type Told } from './language.ts';

type Facts = FactsOfKind['strength-off'];
type Since = (moment: Moment) => string;

/** So much as a bucket can measure: to 5 L, 1 L or 0.1 L. */
const bucketLitres = (litres: number): string => {
  if (litres >= 100) return (5 * Math.round(litres / 5)).toFixed(0);
  return litres.toFixed(litres >= 10 ? 0 : 1);
};

interface Words {
  readonly digits: (digits: string) => string;
  readonly tooStrong: (read: string, usual: string) => string;
  readonly tooWeak: (read: string, usual: string) => string;
  /** It reads as it should again, though not for long. */
  readonly back: (read: string, usual: string) => string;
  readonly unread: (since: string) => string;
  readonly harm: Readonly<Record<Facts['side'], string>>;
  /** A meter that is not the probe comes first; hands and eyes last. */
  readonly meter: string;
  readonly remedies: Readonly<Record<Facts['remedy']['kind'], (litres: string) => string>>;
  readonly care: string;
  readonly brief: {
    readonly strong: (read: string, usual: string) => string;
    readonly weak: (read: string, usual: string) => string;
    readonly back: (read: string, usual: string) => string;
    readonly meter: string;
    readonly remedies: Words['remedies'];
    readonly care: string;
  };
}

const WORDS: Readonly<Record<LanguageCode, Words>> = {
  en: {
    digits: (digits) => digits,
    tooStrong: (read, usual) => `The solution is too strong: ${read} mS/cm at 25 °C, usual is ${usual}.`,
    tooWeak: (read, usual) => `The solution is too weak: ${read} mS/cm at 25 °C, usual is ${usual}.`,
    back: (read, usual) =>
      `The solution was out of its band and reads ${read} mS/cm at 25 °C again, usual is ${usual}.`,
    unread: (since) => ` The probe has given no good reading ${since}.`,
    harm: {
      strong: 'Roots take up water with more and more trouble, and leaf edges may burn.',
      weak: 'Plants live on, but grow slowly and pale.',
    },
    meter: 'Read it with another meter first: a probe may lie. If it is so, ',
    remedies: {
      'add-water': (litres) =>
        `add about ${litres} L of plain water, measured first too, in steps, and read again after a flood each time.`,
      'swap-water': (litres) =>
        `take out about ${litres} L and put in as much plain water, measured first too, in steps, and read again after a flood each time.`,
      'no-water': () =>
        'the water of the top-up cannot dilute it, for it is as strong itself: use weaker water, such as rain.',
      'add-stock': () => 'add stock solution in small steps, and read again after a flood each time.',
      wait: () => 'add nothing now, and read it once more after the next flood.',
    },
    care: ' Wear gloves and goggles; never mix concentrates.',
    brief: {
      strong: (read, usual) => `SOLUTION TOO STRONG: ${read} mS/cm, usual ${usual}`,
      weak: (read, usual) => `SOLUTION TOO WEAK: ${read} mS/cm, usual ${usual}`,
      back: (read, usual) => `Solution reads ${read} mS/cm again, usual ${usual}`,
      meter: 'Try another meter, then ',
      remedies: {
        'add-water': (litres) => `add ${litres} L of water in steps`,
        'swap-water': (litres) => `swap ${litres} L for water in steps`,
        'no-water': () => 'dilute, not with the top-up',
        'add-stock': () => 'add stock in small steps',
        wait: () => 'add nothing for now',
      },
      care: '; gloves, goggles',
    },
  },
  pt: {
    digits: decimalComma,
    tooStrong: (read, usual) => `A solução está forte de mais: ${read} mS/cm a 25 °C, o habitual é ${usual}.`,
    tooWeak: (read, usual) => `A solução está fraca de mais: ${read} mS/cm a 25 °C, o habitual é ${usual}.`,
    back: (read, usual) =>
      `A solução esteve fora da sua faixa e volta a ler ${read} mS/cm a 25 °C, o habitual é ${usual}.`,
    unread: (since) => ` A sonda não dá leitura boa ${since}.`,
    harm: {
      strong: 'As raízes tiram água com cada vez mais custo, e as folhas podem queimar nas bordas.',
      weak: 'As plantas vivem, mas crescem devagar e pálidas.',
    },
    meter: 'Meça primeiro com outro medidor: uma sonda pode mentir. Se for assim, ',
    remedies: {
      'add-water': (litres) =>
        `junte cerca de ${litres} L de água simples, também ela medida antes, aos poucos, e volte a medir depois de uma rega de cada vez.`,
      'swap-water': (litres) =>
        `tire cerca de ${litres} L e ponha outro tanto de água simples, também ela medida antes, aos poucos, e volte a medir depois de uma rega de cada vez.`,
      'no-water': () =>
        'a água do enchimento não a pode diluir, pois é tão forte como ela deve ser: use água mais fraca, como a da chuva.',
      'add-stock': () =>
        'junte solução-mãe em pequenas doses, e volte a medir depois de uma rega de cada vez.',
      wait: () => 'não junte nada agora, e volte a medir depois da próxima rega.',
    },
    care: ' Use luvas e óculos de proteção; nunca misture concentrados.',
    brief: {
      strong: (read, usual) => `SOLUÇÃO FORTE DE MAIS: ${read} mS/cm, usual ${usual}`,
      weak: (read, usual) => `SOLUÇÃO FRACA DE MAIS: ${read} mS/cm, usual ${usual}`,
      back: (read, usual) => `A solução volta a ler ${read} mS/cm, usual ${usual}`,
      meter: 'Veja com outro medidor, depois ',
      remedies: {
        'add-water': (litres) => `junte ${litres} L de água aos poucos`,
        'swap-water': (litres) => `troque ${litres} L por água aos poucos`,
        'no-water': () => 'dilua, não com a do enchimento',
        'add-stock': () => 'junte solução-mãe aos poucos',
        wait: () => 'não junte nada por agora',
      },
      care: '; luvas, óculos',
    },
  },
  es: {
    digits: decimalComma,
    tooStrong: (read, usual) =>
      `La solución está demasiado fuerte: ${read} mS/cm a 25 °C, lo habitual es ${usual}.`,
    tooWeak: (read, usual) =>
      `La solución está demasiado débil: ${read} mS/cm a 25 °C, lo habitual es ${usual}.`,
    back: (read, usual) =>
      `La solución estuvo fuera de su margen y marca de nuevo ${read} mS/cm a 25 °C, lo habitual es ${usual}.`,
    unread: (since) => ` La sonda no da una lectura buena ${since}.`,
    harm: {
      strong: 'Las raíces toman el agua cada vez con más trabajo, y los bordes de las hojas pueden quemarse.',
      weak: 'Las plantas viven, pero crecen despacio y pálidas.',
    },
    meter: 'Mida primero con otro medidor: una sonda puede mentir. Si es así, ',
    remedies: {
      'add-water': (litres) =>
        `añada unos ${litres} L de agua sola, medida antes también, poco a poco, y mida de nuevo tras un riego cada vez.`,
      'swap-water': (litres) =>
        `saque unos ${litres} L y ponga otro tanto de agua sola, medida antes también, poco a poco, y mida de nuevo tras un riego cada vez.`,
      'no-water': () =>
        'el agua del llenado no puede diluirla, pues es tan fuerte como debe ser ella: use agua más débil, como la de lluvia.',
      'add-stock': () => 'añada solución madre en dosis pequeñas, y mida de nuevo tras un riego cada vez.',
      wait: () => 'no añada nada ahora, y mida otra vez tras el próximo riego.',
    },
    care: ' Use guantes y gafas de protección; nunca mezcle concentrados.',
    brief: {
      strong: (read, usual) => `SOLUCIÓN DEMASIADO FUERTE: ${read} mS/cm, habitual ${usual}`,
      weak: (read, usual) => `SOLUCIÓN DEMASIADO DÉBIL: ${read} mS/cm, habitual ${usual}`,
      back: (read, usual) => `La solución marca de nuevo ${read} mS/cm, habitual ${usual}`,
      meter: 'Mida con otro medidor, luego ',
      remedies: {
        'add-water': (litres) => `añada ${litres} L de agua poco a poco`,
        'swap-water': (litres) => `cambie ${litres} L por agua poco a poco`,
        'no-water': () => 'diluya, no con la del llenado',
        'add-stock': () => 'añada solución madre poco a poco',
        wait: () => 'no añada nada por ahora',
      },
      care: '; guantes, gafas',
    },
  },
  fr: {
    digits: decimalComma,
    tooStrong: (read, usual) => `La solution est trop forte : ${read} mS/cm à 25 °C, d'habitude ${usual}.`,
    tooWeak: (read, usual) => `La solution est trop faible : ${read} mS/cm à 25 °C, d'habitude ${usual}.`,
    back: (read, usual) =>
      `La solution était hors de ses bornes et redonne ${read} mS/cm à 25 °C, d'habitude ${usual}.`,
    unread: (since) => ` La sonde ne donne plus de bonne mesure ${since}.`,
    harm: {
      strong: "Les racines prennent l'eau de plus en plus mal, et le bord des feuilles peut brûler.",
      weak: 'Les plantes vivent, mais poussent lentement et pâles.',
    },
    meter: "Mesurez d'abord avec un autre appareil : une sonde peut mentir. Si c'est vrai, ",
    remedies: {
      'add-water': (litres) =>
        `ajoutez environ ${litres} L d'eau simple, mesurée d'abord elle aussi, par étapes, et mesurez de nouveau après un arrosage à chaque fois.`,
      'swap-water': (litres) =>
        `retirez environ ${litres} L et mettez-y autant d'eau simple, mesurée d'abord elle aussi, par étapes, et mesurez de nouveau après un arrosage à chaque fois.`,
      'no-water': () =>
        "l'eau du remplissage ne peut pas la diluer, car elle est aussi forte que la solution devrait être : prenez une eau plus faible, comme celle de pluie.",
      'add-stock': () =>
        'ajoutez de la solution mère par petites doses, et mesurez de nouveau après un arrosage à chaque fois.',
      wait: () => "n'ajoutez rien pour l'instant, et mesurez encore après le prochain arrosage.",
    },
    care: ' Portez gants et lunettes ; ne mélangez jamais des concentrés.',
    brief: {
      strong: (read, usual) => `SOLUTION TROP FORTE : ${read} mS/cm, usuel ${usual}`,
      weak: (read, usual) => `SOLUTION TROP FAIBLE : ${read} mS/cm, usuel ${usual}`,
      back: (read, usual) => `La solution redonne ${read} mS/cm, usuel ${usual}`,
      meter: "Autre appareil d'abord, puis ",
      remedies: {
        'add-water': (litres) => `ajoutez ${litres} L d'eau par étapes`,
        'swap-water': (litres) => `${litres} L remplacés par de l'eau, par étapes`,
        'no-water': () => 'diluez, pas avec le remplissage',
        'add-stock': () => 'solution mère peu à peu',
        wait: () => "n'ajoutez rien",
      },
      care: ' ; gants, lunettes',
    },
  },
};

const remedyIn = (remedies: Words['remedies'], { remedy }: Facts, digits: Words['digits']): string =>
  remedies[remedy.kind]('litres' in remedy ? digits(bucketLitres(remedy.litres)) : '');

const bothRead = (facts: Facts, digits: Words['digits']): readonly [string, string] => [
  digits(facts.millisiemensPerCm.toFixed(2)),
  digits(facts.usualMillisiemensPerCm.toFixed(2)),
];

/** A solution that has been outside the band of its strength. */
export const strengthOffCard =
  (code: LanguageCode, since: Since) =>
  (facts: Facts): Told => {
    const words = WORDS[code];
    const off = facts.side === 'strong' ? words.tooStrong : words.tooWeak;
    const say = facts.remedy.kind === 'wait' ? words.back : off;
    const unread = facts.unreadSince === null ? '' : words.unread(since(facts.unreadSince));
    return {
      cause: say(...bothRead(facts, words.digits)) + unread,
      consequence: words.harm[facts.side],
      firstAction: words.meter + remedyIn(words.remedies, facts, words.digits) + words.care,
    };
  };

export const strengthOffBrief =
  (code: LanguageCode) =>
  (facts: Facts): Brief => {
    const { digits, brief } = WORDS[code];
    return {
      what: brief[facts.remedy.kind === 'wait' ? 'back' : facts.side](...bothRead(facts, digits)),
      act: brief.meter + remedyIn(brief.remedies, facts, digits) + brief.care,
    };
  };
