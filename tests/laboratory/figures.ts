import type { Measurement, MonitorResult, Results } from "../../src/model.js";
import { bandEdges } from "../../src/standards/iec61260.js";
import { JUST_NOTICEABLE, type JustNoticeable } from "../../src/standards/just-noticeable.js";

/** What a figure is one of. */
export type Kind = "level" | "decay" | "late" | "clarity" | "end" | "side-level" | "side-arrival";

/** One figure as the results state it. */
export interface Figure {
  readonly name: string;
  readonly kind: Kind;
  /** Edges of its band; null for figures of the whole range. */
  readonly rangeHz: readonly [number, number] | null;
  readonly value: number;
  /** Standard uncertainty in the figure's unit; null where none is stated. */
  readonly uncertainty: number | null;
  readonly justNoticeable: JustNoticeable;
  /** What the results themselves say against it. */
  readonly flags: readonly string[];
}

type Raw = Omit<Figure, "value"> & { readonly value: number | null };

/** Every figure that may not come out wrong, by its name: levels, decays, clarity, the bass end, left against right. */
export function figuresOf({ measurements, monitors }: Results): Map<string, Figure> {
  const all: Raw[] = [...measurements.flatMap(ofMeasurement), ...monitors.flatMap(ofMonitor)];
  return new Map(all.flatMap((one) => (one.value === null ? [] : [[one.name, { ...one, value: one.value }]])));
}

function ofMeasurement({ id, bands }: Measurement): Raw[] {
  return bands.flatMap((band): Raw[] => {
    const { nominalHz, flags } = band;
    const rangeHz = bandEdges(band);
    const figure = (
      what: string,
      kind: Kind,
      value: number | null,
      uncertainty: number | null | undefined,
      justNoticeable: JustNoticeable,
    ): Raw => ({
      name: `${what} of ${id} at ${nominalHz} Hz`,
      kind,
      rangeHz,
      value,
      uncertainty: uncertainty ?? null,
      justNoticeable,
      flags,
    });
    const { bandLevel, earlyDecay, decay, clarity80 } = JUST_NOTICEABLE;
    if (band.fraction === 3) return [figure("level", "level", band.levelDb, band.levelUncertaintyDb, bandLevel)];
    return [
      figure("EDT", "decay", band.edtS, band.edtUncertaintyS, earlyDecay),
      // One uncertainty is stated for both, T30's where there is one.
      figure("T20", "decay", band.t20S, band.decayUncertaintyS, decay),
      figure("T30", "decay", band.t30S, band.decayUncertaintyS, decay),
      figure("late decay", "late", band.lateS, band.lateUncertaintyS, decay),
      figure("C80", "clarity", band.c80Db, band.c80UncertaintyDb, clarity80),
    ];
  });
}

function ofMonitor({ id, extension, leftRight }: MonitorResult): Raw[] {
  const none = { rangeHz: null, uncertainty: null, flags: [] };
  const end = (dB: number, value: number | null): Raw => ({
    ...none,
    name: `−${dB} dB end of ${id}`,
    kind: "end",
    value,
    justNoticeable: JUST_NOTICEABLE.extension,
  });
  const ends = extension ? [end(3, extension.minus3Hz), end(6, extension.minus6Hz), end(10, extension.minus10Hz)] : [];
  if (!leftRight) return ends;
  const { levelDb, levelUncertaintyDb, arrivalS, arrivalUncertaintyS } = leftRight;
  const { sideLevel, sideArrival } = JUST_NOTICEABLE;
  const own = (what: string): string => `${what} of ${id}, left against right`;
  return [
    ...ends,
    {
      ...none,
      name: own("level"),
      kind: "side-level",
      value: levelDb,
      uncertainty: levelUncertaintyDb,
      justNoticeable: sideLevel,
    },
    {
      ...none,
      name: own("arrival"),
      kind: "side-arrival",
      value: arrivalS,
      uncertainty: arrivalUncertaintyS,
      justNoticeable: sideArrival,
    },
  ];
}
