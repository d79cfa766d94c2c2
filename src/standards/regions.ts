/** A stretch of the spectrum that engineers have a word for. */
export interface Region {
  readonly name: string;
  /** Nominal edges of third octaves, so that each band belongs to one region. */
  readonly fromHz: number;
  readonly toHz: number;
  /** What is set there in a mix. */
  readonly carries: string;
  readonly source: string;
}

/**
 * Musical regions.
 *
 * There is no standard: handbooks and the trade press cut differently. Names and what they carry are from there; the edges are
 * put on edges of third octaves, a choice of ours. The lowest, 28 Hz, is the edge under the band of 31.5 Hz, which belongs to
 * the sub.
 */
export const REGIONS: readonly Region[] = [
  {
    name: "rumble",
    fromHz: 20,
    toHz: 28,
    carries: "what is felt below most instruments, and noise",
    source: "common practice, no source",
  },
  {
    name: "sub",
    fromHz: 28,
    toHz: 56,
    carries: "the kick's bottom octave, the low E of the bass at 41 Hz",
    source: "Kulka 1972, quoted by Owsinski (16-60 Hz)",
  },
  {
    name: "kick weight",
    fromHz: 56,
    toHz: 90,
    carries: "the kick's fundamental, 60-70 Hz",
    source: "trade press, a mixing column",
  },
  {
    name: "bass",
    fromHz: 90,
    toHz: 180,
    carries: "bass notes, the body of the kick",
    source: "Kulka 1972, quoted by Owsinski (60-250 Hz)",
  },
  { name: "warmth", fromHz: 180, toHz: 355, carries: "warmth, and mud where it is too much", source: "trade press" },
  {
    name: "body",
    fromHz: 355,
    toHz: 710,
    carries: "lower harmonics, and what sounds boxed in",
    source: "Kulka 1972, quoted by Owsinski (250-2000 Hz)",
  },
  {
    name: "middle",
    fromHz: 710,
    toHz: 1400,
    carries: "the voice's core, the bass line on small speakers",
    source: "Kulka 1972, quoted by Owsinski; trade press",
  },
  {
    name: "bite",
    fromHz: 1400,
    toHz: 2800,
    carries: "consonants, pick, the crack of the snare",
    source: "common practice, no source",
  },
  {
    name: "presence",
    fromHz: 2800,
    toHz: 5600,
    carries: "nearness, and harshness where it is too much",
    source: "Kulka 1972, quoted by Owsinski (presence 4-6 kHz); trade press (3-6 kHz)",
  },
  {
    name: "sibilance",
    fromHz: 5600,
    toHz: 9000,
    carries: "s and t, the edge of cymbals",
    source: "common practice, no source",
  },
  {
    name: "air",
    fromHz: 9000,
    toHz: 18_000,
    carries: "brilliance above cymbals and breath",
    source: "Kulka 1972, quoted by Owsinski (6-16 kHz); common practice, no source",
  },
];

/** Whether a third octave belongs to a region. */
export function isInRegion(nominalHz: number, { fromHz, toHz }: Pick<Region, "fromHz" | "toHz">): boolean {
  return nominalHz > fromHz && nominalHz < toHz;
}
