/** A ratio of recorded to played duration that has a usual cause. */
export interface UsualRatio {
  readonly ratio: number;
  /** For people: what was taken for what. */
  readonly name: string;
}

/** Sample rates in use. */
const RATES = [16_000, 22_050, 32_000, 44_100, 48_000, 88_200, 96_000, 176_400, 192_000] as const;
/** Clocks of film and video: 1000 frames for 1001, and 25 in a second for 24. */
const FILM: readonly UsualRatio[] = [
  { ratio: 1.001, name: "film pull-down, 1001 to 1000" },
  { ratio: 1 / 1.001, name: "film pull-up, 1000 to 1001" },
  { ratio: 25 / 24, name: "25 film frames in a second played as 24" },
  { ratio: 24 / 25, name: "24 film frames in a second played as 25" },
];

/** The usual ratios at a sample rate: sound of one rate taken for the other, either way round, and film clocks. */
function usualRatios(sampleRate: number): UsualRatio[] {
  const kilohertz = (rate: number): string => `${rate / 1000} kHz`;
  const taken = (rate: number, forRate: number): UsualRatio => ({
    ratio: rate / forRate,
    name: `${kilohertz(rate)} taken for ${kilohertz(forRate)}`,
  });
  const others = RATES.filter((rate) => rate !== sampleRate);
  return [...others.map((rate) => taken(rate, sampleRate)), ...others.map((rate) => taken(sampleRate, rate)), ...FILM];
}

/** The usual ratio nearest to a measured one, if it is within a share of it. */
export function nearestUsual(ratio: number, sampleRate: number, within: number): UsualRatio | null {
  const distance = (one: UsualRatio): number => Math.abs(Math.log(one.ratio / ratio));
  const nearest = usualRatios(sampleRate).reduce((a, b) => (distance(b) < distance(a) ? b : a));
  return distance(nearest) <= within ? nearest : null;
}
