import type { Measure, PorousDepth } from "../../../model.js";
import { fixed, hertz, listed, significant } from "../../../words/numbers.js";
import { mirroredSurface, surfaceName } from "../../../words/surface-name.js";
import { length } from "../../words/lengths.js";

type Of<Kind extends Measure["kind"]> = Extract<Measure, { kind: Kind }>;

/** The side walls make a dip of both sides together; of a reflection, which has a share to take, one wall is as likely as the other. */
function isOfBothSides({ surfaces: [first, second], neededAbsorption }: Of<"porous">): boolean {
  return neededAbsorption === null && first !== second && first !== undefined && second === mirroredSurface(first);
}

/** What a porous layer does, and how deep it must be. */
export function porousWords(measure: Of<"porous">): string {
  const { frequencyHz, quarterWaveM, surfaces, neededAbsorption, depths } = measure;
  const names = surfaces.map(surfaceName).join(isOfBothSides(measure) ? " and " : " or ");
  const where = names === "" ? "" : ` on ${names}`;
  const shares = [...new Set(depths.map(({ absorption }) => absorption))];
  const known = depths.filter(({ depthM }) => depthM !== null);
  const untested = [...new Set(known.filter(({ tested }) => !tested).map(({ resistivity }) => resistivity))];
  const straight = depths.flatMap(({ straightOn }) => straightOn ?? []);
  return [
    `Porous layer${where}: friction takes energy where the air moves, most of all a quarter of the wavelength off the hard surface behind, ${length(quarterWaveM)} at ${hertz(frequencyHz)}.`,
    `To take ${shares.map((share) => depthWords(share, depths)).join("; ")}.`,
    ...(neededAbsorption === null
      ? []
      : [
          `This reflection comes down to the limit with ${percent(neededAbsorption)}, if the surface takes nothing now.`,
        ]),
    ...(straight.length === 0 ? [] : [`Of sound that meets it straight on it takes ${between(straight)} then.`]),
    ...(untested.length === 0
      ? []
      : [
          `With ${kilo(Math.min(...untested))}${untested.length > 1 ? " and more" : ""} that is the model's word alone: nobody measured so low.`,
        ]),
  ].join(" ");
}

/** Why no deep layer belongs there, and what is left. */
export function coverWords({ surface, use, frequencyHz, neededAbsorption, covers }: Of<"cover">): string {
  const taken = covers.map(({ depthM, least, most }) => `${fixed(100 * depthM, 0)} cm about ${between([least, most])}`);
  const needs = neededAbsorption === null ? "" : ` The limit is kept with ${percent(neededAbsorption)}.`;
  const little = covers.every(({ most }) => most < LITTLE) ? "takes little" : "takes some";
  const takes = `${little} at ${hertz(frequencyHz)}: ${taken.join(", ")} of the sound from all sides.${needs}`;
  if (use === "floor") {
    return `Rug: a floor is walked on, so no layer of centimetres belongs there, and nobody turns it. A rug ${takes} What stands in the way, as a desk between, takes the floor's reflection from the seat; moving loudspeaker or seat shifts it in time.`;
  }
  return `No layer on ${surfaceName(surface)}: it is worked at. What helps is to tilt it, or to move it, the loudspeaker or the seat until the place where the sound meets it lies off its edge. A blanket laid over it while you judge ${takes}`;
}

/** A cover that takes less changes nothing that is heard: 20 % are 1 dB. */
const LITTLE = 0.2;

/** "half of the sound from all sides, 12 cm (20 kPa s/m²) to 17 cm (5 kPa s/m²)". */
function depthWords(share: number, depths: readonly PorousDepth[]): string {
  const what = share === 0.5 ? "half of the sound from all sides" : percent(share);
  const known = depths
    .filter((one) => one.absorption === share && one.depthM !== null)
    .sort((a, b) => a.depthM! - b.depthM!);
  const said = ({ depthM, resistivity }: PorousDepth): string =>
    `${length(Number(depthM!.toPrecision(2)))} (${kilo(resistivity)})`;
  const [least, most] = [known[0], known.at(-1)];
  if (!least || !most) return `${what}, no depth is enough`;
  if (least === most) return `${what}, about ${said(least)} alone`;
  return `${what}, about ${said(least)} to ${said(most)}`;
}

/** What a box tuned to one frequency needs. */
export function tunedWords({ frequencyHz, membranes, holedPlates }: Of<"tuned">): string {
  const cavities = `${or(membranes.map(({ cavityM }) => fixed(100 * cavityM, 0)))} cm`;
  const masses = or(membranes.map(({ massKgPerM2 }) => significant(massKgPerM2, 2)));
  const [plate] = holedPlates;
  const shares = or(holedPlates.map(({ openShare }) => (openShare === null ? "no" : significant(100 * openShare, 2))));
  const holed = plate
    ? `, or a plate of ${fixed(1000 * plate.plateM, 0)} mm of which ${shares} % is open in holes of ${fixed(1000 * plate.holeM, 0)} mm`
    : "";
  return [
    "Tuned absorber: a mass on the spring of closed air swings most, and takes most, at f = 60 / √(m d), m in kg/m² and d in m.",
    `At ${hertz(frequencyHz)} that is a limp sheet of ${masses} kg/m² before ${cavities} of air${holed}.`,
    "It belongs where the pressure is highest, at the ends of the sound's way or in corners, with porous filling that turns the swing into heat. It is a few hertz wide, and stiffness and leaks move it: tune it by measuring.",
  ].join(" ");
}

/** Whether making a surface scatter is an answer. */
export function diffusionWords({
  surface,
  frequencyHz,
  depthM,
  leastDistanceM,
  distanceM,
  possible,
}: Of<"diffusion">): string {
  const needs = `it takes a structure ${length(depthM)} deep (a quarter of the wavelength at ${hertz(frequencyHz)}) and ${length(leastDistanceM)} to the listener (three of them)`;
  if (possible === false && distanceM === null) return `Scattering: no answer at this frequency, for ${needs}.`;
  const does = `Scattering${surface === null ? "" : ` by ${surfaceName(surface)}`}: it keeps a reflection's energy in the room and spreads it in time and angle`;
  if (possible === null) return `${does}; ${needs}, and how far you sit from it is not known.`;
  return `${does}; ${needs}. You sit ${length(distanceM!)} from it${possible ? "" : ", too near"}.`;
}

function kilo(resistivity: number): string {
  return `${fixed(resistivity / 1000, 0)}\u00a0kPa\u00a0s/m²`;
}

export function percent(share: number): string {
  return `${fixed(100 * share, 0)} %`;
}

function between(shares: readonly number[]): string {
  const [least, most] = [percent(Math.min(...shares)), percent(Math.max(...shares))];
  return least === most ? least : `${least.replace(" %", "")} to ${most}`;
}

function or(names: readonly string[]): string {
  return listed(names).replace(/ and ([^,]*)$/, " or $1");
}
