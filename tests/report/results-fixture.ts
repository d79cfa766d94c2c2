import { frequencyGrid } from "../../src/dsp/frequency-grid.js";
import type { BandMetrics, Finding, Measurement, Results } from "../../src/model.js";
import { finding as newFinding } from "../../src/schema/finding.js";
import { resultsSchema } from "../../src/schema/results.js";

/** Invented results with the shapes that real ones have: two monitors in one small room, one of everything. */

interface Voice {
  readonly id: string;
  readonly role: "main" | "nearfield";
  readonly name: string;
  /** Half-power frequency of the low roll-off. */
  readonly cornerHz: number;
  readonly levelDb: number;
  readonly distortionDb: number;
}

const voices: readonly Voice[] = [
  { id: "mains", role: "main", name: "Soffit mains", cornerHz: 31, levelDb: -18.2, distortionDb: 0 },
  { id: "nears", role: "nearfield", name: "Two-way nears", cornerHz: 55, levelDb: -21.4, distortionDb: 9 },
];

const frequencyHz = [...frequencyGrid()];
const octavesHz = [31.5, 63, 125, 250, 500, 1000, 2000, 4000, 8000];
const thirdsHz = [
  25, 31.5, 40, 50, 63, 80, 100, 125, 160, 200, 250, 315, 400, 500, 630, 800, 1000, 1250, 1600, 2000, 2500, 3150, 4000,
  5000, 6300, 8000, 10_000, 12_500, 16_000,
];
const places = ["mix", "head_left", "head_right", "ahead", "behind"];
const digest = "3b5d5c3712955042212316173ccf37be800afc5bd0d0a3b9c5c0d8b1b2f4a6e7";

/** Results that the schema accepts. */
export function resultsFixture(): Results {
  const measurements = voices.flatMap((voice) => [
    measurement(voice, "L", 0),
    measurement(voice, "R", 1.7),
    { ...measurement(voice, "both", 0.8), derived: true, distortion: null, background: null },
  ]);
  const [mains, nears] = voices;
  return resultsSchema.parse({
    schema: "carrywell/results/1",
    session: {
      schema: "carrywell/session/1",
      title: "Control room B before treatment",
      date: "2026-05-14",
      engineer: "R. Vanterpool",
      client: "Lantern Yard",
      room: { name: "Control room B", lengthM: 6.1, widthM: 4.6, heightM: 2.9, volumeM3: 81.4 },
      environment: { temperatureC: 21, relativeHumidityPercent: 45 },
      microphone: { name: "omni 7", calibration: "omni-7.txt", gainFixed: true },
      sweep: "sweep.json",
      monitors: voices.map(({ id, role, name }) => ({ id, role, name })),
      positions: places.map((id) => ({ id, kind: id === "mix" ? "mix" : "near" })),
      recordings: voices.map(({ id }) => ({ file: `${id}-mix.wav`, monitor: id, position: "mix", take: 1 })),
    },
    provenance: {
      version: "0.1.0",
      settings: { smoothing: "1/24 octave", alignmentFromHz: 200, alignmentToHz: 4000, correctDrift: true },
      files: ["mains-mix.wav", "nears-mix.wav", "sweep.json"].map((file) => ({
        file,
        sha256: digest,
        bytes: 3_840_044,
        use: file.endsWith("wav") ? "recording" : "sweep recipe",
        sampleRate: file.endsWith("wav") ? 48_000 : null,
        channels: file.endsWith("wav") ? 1 : null,
        durationS: file.endsWith("wav") ? 26.65 : null,
        encoding: file.endsWith("wav") ? "24-bit PCM" : null,
      })),
    },
    measurements,
    monitors: voices.map((voice) => ({
      id: voice.id,
      name: voice.name,
      role: voice.role,
      channels: ["L", "R"],
      response: {
        frequencyHz,
        levelDb: frequencyHz.map((f) => steady(voice, f, 0.6)),
        toneDb: frequencyHz.map((f) => tone(voice, f, 0.6)),
        uncertaintyDb: frequencyHz.map((f) => (outside(f) ? null : 0.2 + 2 / f)),
      },
      responseReason: null,
      positions: positions(voice),
      extension: {
        minus3Hz: voice.cornerHz * 1.1,
        minus6Hz: voice.cornerHz * 0.9,
        minus10Hz: voice.cornerHz < 40 ? null : voice.cornerHz * 0.75,
        dipsHz: voice.role === "main" ? [84] : [],
        flags: voice.role === "main" ? ["minus10-below-range"] : [],
      },
      leftRight: {
        levelDb: 0.4,
        levelUncertaintyDb: 0.2,
        arrivalS: voice.role === "main" ? 14.6e-6 : -1.1e-6,
        arrivalUncertaintyS: 1.2e-6,
        includesGain: false,
        samePolarity: true,
        bands: thirdsHz.map((nominalHz) => ({
          nominalHz,
          differenceDb: nominalHz < 31 ? null : steady(voice, nominalHz, 0)! - steady(voice, nominalHz, 1.7)!,
          uncertaintyDb: nominalHz < 31 ? null : 0.28,
        })),
        oneSided:
          voice.role === "main"
            ? [{ channel: "R", delayS: 0.00682, levelDb: -12.4, levelUncertaintyDb: 0.4, otherLevelDb: -24.1 }]
            : [],
        phantom: thirdsHz
          .filter((nominalHz) => nominalHz <= 500)
          .map((nominalHz) => ({
            nominalHz,
            againstLeftDb: nominalHz < 31 ? null : -0.4 - 3 / (1 + (Math.log2(nominalHz / 100) * 3) ** 2),
            againstRightDb: nominalHz < 31 ? null : 0.3 - 2 / (1 + (Math.log2(nominalHz / 100) * 3) ** 2),
            uncertaintyDb: nominalHz < 31 ? null : 0.25,
          })),
      },
      leftRightReason: null,
      target: target(voice),
      targetReason: null,
      checks: checks(voice),
    })),
    comparisons: [
      {
        a: "mains",
        b: "nears",
        levelOffsetDb: 3.2,
        levelUncertaintyDb: 0.2,
        includesGain: false,
        bands: thirdsHz.map((nominalHz) => ({
          nominalHz,
          differenceDb: nominalHz < 31 ? null : steady(mains!, nominalHz, 0.6)! - steady(nears!, nominalHz, 0.6)!,
          uncertaintyDb: nominalHz < 31 ? null : 0.28,
        })),
        roomBands: thirdsHz.map((nominalHz) => ({
          nominalHz,
          differenceDb: nominalHz < 31 ? null : steady(mains!, nominalHz, 0.4)! - steady(nears!, nominalHz, 0.7)!,
          uncertaintyDb: nominalHz < 31 ? null : 0.9,
        })),
        extension: { aHz: 30.1, bHz: 54.2, gapOctaves: 0.85 },
        arrivalS: null,
        arrivalReason: "no-loopback",
        decay: octavesHz.map((nominalHz) => ({
          nominalHz,
          aS: nominalHz < 60 ? null : 0.3,
          bS: nominalHz < 60 ? null : 0.28,
          differenceS: nominalHz < 60 ? null : 0.02,
          uncertaintyS: nominalHz < 60 ? null : 0.015,
        })),
        shows: [
          {
            monitor: "mains",
            other: "nears",
            kind: "reach",
            fromHz: 25,
            toHz: 50,
            differenceDb: 11.2,
            uncertaintyDb: 0.6,
          },
          {
            monitor: "nears",
            other: "mains",
            kind: "level",
            fromHz: 2500,
            toHz: 4000,
            differenceDb: 2.4,
            uncertaintyDb: 0.4,
          },
        ],
      },
    ],
    translation: null,
    findings: sessionFindings(),
  });
}

/** One of each kind that a session has, in the order of their rank. */
function sessionFindings(): Finding[] {
  const bass = { uncertainty: 0.6, unit: "dB", limit: 3 };
  return [
    newFinding({
      code: "low-end-trust",
      severity: "info",
      topic: "trust",
      message: "Low end: believe mains, which carries down to 27.9 Hz (−6 dB), deeper than nears.",
      remedy: "set kick and bass on mains",
      value: 27.9,
      unit: "Hz",
      limit: 50,
      source: "edge of the third octave that holds a kick's fundamental; a choice of ours",
      audibility: 2.1,
      monitors: ["mains"],
    }),
    newFinding({
      code: "believable-range",
      severity: "info",
      topic: "trust",
      message:
        'Tone: believe nears from 250 Hz to 2 kHz: no band there leaves its target "tilt" by more than 2.0 dB, and left agrees with right.',
      source: "published in-room slope; a choice of ours",
      audibility: 1,
      rangeHz: [250, 2000],
      monitors: ["nears"],
    }),
    newFinding({
      code: "early-reflection",
      severity: "warning",
      topic: "mend",
      message:
        "A reflection reaches you 0.8 ms after the direct sound of nears (left and right), by a way 0.28 m longer, at −9.4 ± 0.6 dB: it colours the tone like a comb.",
      remedy: "look at the desk first: tilt or clear its top, raise or move these loudspeakers",
      value: -9.4,
      uncertainty: 0.6,
      unit: "dB",
      limit: -10,
      source: "ITU-R BS.1116-3 and EBU Tech 3276: 10 dB under the direct sound up to 15 ms, 1-8 kHz, from memory",
      audibility: 3.4,
      monitors: ["nears"],
      channels: ["L", "R"],
    }),
    newFinding({
      code: "left-right-bands",
      severity: "warning",
      topic: "mend",
      message: "Right of mains is weaker than the other side from 50 Hz to 80 Hz, by 5.1 ± 0.6 dB at 63 Hz.",
      remedy: "compare what stands near each side (corner, door, window, furniture) and the settings of both boxes",
      value: 5.1,
      ...bass,
      source: "3 dB outside 250 Hz-2 kHz; a choice of ours",
      audibility: 1.7,
      bandHz: 63,
      rangeHz: [50, 80],
      monitors: ["mains"],
      channels: ["R"],
    }),
    newFinding({
      code: "rings",
      severity: "warning",
      topic: "mend",
      message:
        "The room rings at 40 Hz: 0.62 ± 0.06 s at 40 Hz, where 0.48 s is the limit (heard with mains and nears).",
      remedy: "deep or tuned absorbers at the ends of the room that carry this tone, best in corners",
      value: 0.62,
      uncertainty: 0.06,
      unit: "s",
      limit: 0.48,
      source: "ITU-R BS.1116-3, 8.2.3, reverberation by volume; outside 200 Hz-4 kHz from memory",
      audibility: 1.3,
      bandHz: 40,
      rangeHz: [40, 40],
      monitors: ["mains", "nears"],
    }),
    newFinding({
      code: "ends-early",
      severity: "info",
      topic: "mend",
      message: "The low end of nears stops at 54.2 Hz (−6 dB): what lies below cannot be judged there.",
      remedy: "decide everything under 54.2 Hz on a monitor that carries it, or on headphones",
      value: 54.2,
      unit: "Hz",
      limit: 50,
      source: "edge of the third octave that holds a kick's fundamental; a choice of ours",
      audibility: 1,
      monitors: ["nears"],
    }),
    newFinding({
      code: "not-calibrated",
      severity: "info",
      topic: "unknown",
      message:
        "No calibrator was recorded: no figure here is a sound pressure level, and the room's noise cannot be rated.",
      remedy: "record a sound calibrator with the gain left as it is, and name it in session.json as microphone.level",
    }),
    finding(
      "short-tail",
      "warning",
      "Only 0.30 s were recorded after the right sweep: low frequencies and decays are cut off.",
      {
        remedy: "let the recorder run until the end of the reel",
        value: 0.3,
        unit: "s",
        limit: 0.5,
        recordings: ["nears-mix.wav"],
      },
    ),
  ];
}

function positions(voice: Voice): NonNullable<Results["monitors"][number]["positions"]> {
  const spread = (f: number): number => 0.5 + 2.6 / (1 + (Math.log2(f / 84) * 2) ** 2) + 0.3 * Math.log10(1 + f / 500);
  const known = (f: number, value: number): number | null => (outside(f) || f < 31 ? null : value);
  return {
    ids: places,
    response: {
      frequencyHz,
      levelDb: frequencyHz.map((f) => steady(voice, f, 0.4)),
      toneDb: frequencyHz.map((f) => tone(voice, f, 0.4)),
      uncertaintyDb: frequencyHz.map((f) => (outside(f) ? null : 0.2)),
    },
    spreadDb: frequencyHz.map((f) => (outside(f) ? null : spread(f))),
    bands: thirdsHz.map((nominalHz) => ({
      nominalHz,
      levelDb: known(nominalHz, steady(voice, nominalHz, 0.4)!),
      spreadDb: known(nominalHz, spread(nominalHz)),
      roomUncertaintyDb: known(nominalHz, spread(nominalHz) / Math.sqrt(places.length)),
    })),
    decay: octavesHz.map((nominalHz) => ({
      nominalHz,
      timeS: known(nominalHz, 0.29),
      spreadS: known(nominalHz, 0.02),
      roomUncertaintyS: known(nominalHz, 0.03),
    })),
  };
}

function target(voice: Voice): NonNullable<Results["monitors"][number]["target"]> {
  const bands = thirdsHz.map((nominalHz) => {
    const targetDb = -1 * Math.log2(nominalHz / 1000);
    const measured = nominalHz < 31 ? null : steady(voice, nominalHz, 0.6)! - voice.levelDb;
    const limited = nominalHz >= 50;
    return {
      nominalHz,
      targetDb,
      deviationDb: measured === null ? null : measured - 0.35 * targetDb - 1.2,
      uncertaintyDb: measured === null ? null : 0.3,
      lowerDb: limited && nominalHz >= 80 ? -3 - (nominalHz > 2000 ? Math.log2(nominalHz / 2000) : 0) : null,
      upperDb: limited ? 3 : null,
    };
  });
  return {
    id: "tilt",
    source: "published slope of loudspeakers in rooms, restated; tolerance a choice of ours",
    advisory: true,
    offsetDb: voice.levelDb + 1.2,
    fitHz: [200, 4000],
    withinPercent: voice.role === "main" ? 82.6 : 69.6,
    rmsDb: 2.3,
    bands,
  };
}

function checks(voice: Voice): Results["monitors"][number]["checks"] {
  const standard = "ITU-R BS.1116-3, section 8, and EBU Tech 3276";
  const common = { reason: null, channel: null, bandHz: null };
  return [
    {
      ...common,
      code: "reverberation-mean",
      source: `${standard}; read in a restatement`,
      limit: "0.18 to 0.28 s",
      value: 0.27,
      unit: "s",
      pass: true,
      advisory: false,
    },
    {
      ...common,
      code: "early-reflections",
      source: `${standard}; from memory`,
      limit: "at most −10 dB up to 15 ms",
      value: -9.4,
      unit: "dB",
      pass: voice.role === "main",
      advisory: true,
      channel: "L",
    },
    {
      ...common,
      code: "background-noise",
      source: `${standard}; from memory`,
      limit: "NR 10, at most NR 15",
      value: null,
      unit: null,
      pass: null,
      reason: "no-calibrator",
      advisory: true,
    },
  ];
}

const hostileTexts = [
  `</script><script>window.broken = "script"</script>`,
  `<img src="https://example.invalid/x.png" onerror="window.broken = 'img'">`,
  `<a href="javascript:window.broken='link'">x</a><b>bold</b>`,
  "$& $1 $` $' {{ title }} {% raw %} %{x} &lt;script&gt; \u2028 \u2029 <!-- -->",
  `" onmouseover="window.broken='attribute'" x="`,
  `</style></title></svg><svg onload="window.broken='svg'">`,
];

/** The same results, with text in every free place that tries to become something else. */
export function hostileResultsFixture(): Results {
  const results = resultsFixture();
  let turn = 0;
  const hostile = (): string => hostileTexts[turn++ % hostileTexts.length]!;
  const { session } = results;
  session.title = hostileTexts.join(" ");
  session.engineer = hostile();
  session.client = hostile();
  session.date = hostile();
  session.notes = hostile();
  session.room = { ...session.room, name: hostile(), notes: hostile() };
  session.microphone = { ...session.microphone, name: hostile(), calibration: hostile() };
  results.provenance.version = hostile();
  results.provenance.settings = Object.fromEntries(hostileTexts.map((text) => [text, text]));
  results.provenance.files.forEach((file) => {
    Object.assign(file, { file: hostile(), use: hostile(), encoding: hostile(), sha256: hostile() });
  });
  for (const monitor of results.monitors) monitor.name = monitor.id === "mains" ? "<b>$&</b>{{x}}" : hostile();
  for (const measurement of results.measurements) {
    measurement.position = hostile();
    measurement.reverberation.method = hostile();
    for (const band of measurement.bands) band.flags.push(hostile());
    for (const found of measurement.quality.findings) Object.assign(found, { message: hostile(), remedy: hostile() });
  }
  for (const monitor of results.monitors) {
    Object.assign(monitor.target!, { id: hostile(), source: hostile() });
    Object.assign(monitor.positions!, { ids: [hostile(), hostile()] });
    for (const check of monitor.checks) {
      Object.assign(check, {
        code: hostile(),
        source: hostile(),
        limit: hostile(),
        reason: hostile(),
        unit: hostile(),
      });
    }
  }
  for (const comparison of results.comparisons) comparison.arrivalReason = hostile();
  for (const text of hostileTexts) {
    const parts = { remedy: text, source: text, unit: text, value: 1, limit: 2, monitors: [text], recordings: [text] };
    for (const topic of ["trust", "mend", "unknown", "recording"] as const) {
      results.findings.push(finding(text, "warning", text, { ...parts, topic }));
    }
  }
  return resultsSchema.parse(results);
}

/** Results in which next to nothing is known. */
export function sparseResultsFixture(): Results {
  const results = resultsFixture();
  const [first] = results.measurements;
  const nothing = (curve: readonly (number | null)[]): null[] => curve.map(() => null);
  const { response, quality } = first!;
  for (const key of ["levelDb", "toneDb", "directDb", "phaseDeg", "groupDelayS", "uncertaintyDb"] as const) {
    response[key] = nothing(response[key]);
  }
  response.validHz = null;
  Object.assign(quality, {
    usable: false,
    peakDbfs: null,
    clockDriftPpm: null,
    clockDriftUncertaintyPpm: null,
    signalToNoiseDb: null,
    repeatabilityDb: null,
    residual: null,
    findings: [finding("silence", "reject", "The recording is silent.", { remedy: "record it again" })],
  });
  Object.assign(first!, { bands: [], reflections: [], energyTime: null, distortion: null, background: null });
  first!.reverberation = { tMidS: null, tmS: null, method: "none" };
  results.measurements = [first!];
  results.monitors = results.monitors.slice(0, 1).map((monitor) => ({
    ...monitor,
    channels: ["L"],
    response: null,
    responseReason: "no-mix-position",
    extension: null,
    leftRight: null,
    leftRightReason: "one-channel",
    positions: null,
    target: null,
    targetReason: "no-mix-position",
    checks: [],
  }));
  results.comparisons = [];
  results.findings = [];
  delete results.session.title;
  delete results.session.room;
  return resultsSchema.parse(results);
}

function finding(code: string, severity: Finding["severity"], message: string, more: Partial<Finding>): Finding {
  return newFinding({ code, severity, topic: "recording", message, ...more });
}

function measurement(voice: Voice, channel: "L" | "R" | "both", turn: number): Measurement {
  const curve = (of: (f: number) => number): (number | null)[] => frequencyHz.map((f) => (outside(f) ? null : of(f)));
  const main = voice.role === "main";
  return {
    id: `${voice.id}-${channel}@mix`,
    monitor: voice.id,
    role: voice.role,
    channel,
    position: "mix",
    takes: main ? 2 : 1,
    derived: false,
    levelReference: "transfer",
    quality: {
      usable: true,
      peakDbfs: main ? -8.42 : -11.31,
      clippedSamples: 0,
      clockDriftPpm: main ? 11.3 : 0.2,
      clockDriftUncertaintyPpm: 0.09,
      clockDriftCorrected: main,
      signalToNoiseDb: main ? 62.3 : 54.8,
      repeatabilityDb: main ? 0.08 : null,
      residual: {
        blockS: 0.1,
        medianExcessDb: 0.4,
        worstExcessDb: main ? 4.1 : 14.2,
        worstAtS: 9.3,
        worstBandHz: 4000,
      },
      findings: main
        ? []
        : [
            finding("knock", "warning", "Something knocked during the sweep, 14 dB above the noise.", {
              remedy: "record this take again with nobody moving",
              atS: 9.3,
              bandHz: 4000,
            }),
          ],
    },
    arrival: { inFileS: 1.7103, timeS: null, polarity: 1 },
    response: {
      frequencyHz,
      levelDb: frequencyHz.map((f) => steady(voice, f, turn)),
      toneDb: frequencyHz.map((f) => tone(voice, f, turn)),
      directDb: frequencyHz.map((f) => (f < 400 ? null : direct(voice, f))),
      phaseDeg: curve((f) => (-1e4 / f) % 180),
      groupDelayS: curve((f) => 0.3 / f),
      uncertaintyDb: curve((f) => 0.2 + 2 / f),
      validHz: [22.4, 17_800],
    },
    bands: [...octavesHz.map((hz) => band(1, hz, voice, turn)), ...thirdsHz.map((hz) => band(3, hz, voice, turn))],
    reverberation: { tMidS: 0.27, tmS: 0.29, method: "mean of T30 at 500 and 1000 Hz" },
    energyTime: energyTime(turn),
    reflections: reflections(turn),
    modes: [{ frequencyHz: 28.1, t60S: 0.62, levelDb: 0 }],
    distortion: distortion(voice),
    background: {
      levelReference: "dbfs",
      bands: octavesHz.map((nominalHz) => ({
        nominalHz,
        levelDb: -62 - 9 * Math.log10(nominalHz / 31.5) - (main ? 2 : 0),
      })),
      aWeightedDb: -74.3,
    },
  };
}

function outside(f: number): boolean {
  return f < 22.4 || f > 17_800;
}

function direct({ cornerHz, levelDb }: Voice, f: number): number {
  const low = -10 * Math.log10(1 + (cornerHz / f) ** 8);
  const high = -10 * Math.log10(1 + (f / 19_000) ** 6) + (cornerHz - 31) * 0.06 * Math.log10(1 + (f / 900) ** 2);
  return levelDb + low + high + 0.8 * Math.sin(3 * Math.log(f)) - 1.2 * Math.log10(f / 1000);
}

function tone(voice: Voice, f: number, turn: number): number | null {
  return outside(f) ? null : direct(voice, f) + ripple(f, turn, 0.5) + 2 * Math.log10(1 + 200 / f);
}

function steady(voice: Voice, f: number, turn: number): number | null {
  return outside(f) ? null : direct(voice, f) + ripple(f, turn, 1) + 3 * Math.log10(1 + 300 / f);
}

/** Modes below, combing above: sines whose spacing narrows on the logarithmic axis as reflections make it. */
function ripple(f: number, turn: number, depth: number): number {
  const modes = [28.1, 37.3, 47, 59, 84, 112].reduce((sum, mode, index) => {
    const detune = Math.log2(f / mode) * 9;
    return sum + ((index % 3 === 2 ? -7 : 5) + turn) / (1 + detune * detune);
  }, 0);
  const combing = [0.0011, 0.0027, 0.0041, 0.0068].reduce(
    (sum, delayS, index) => sum + Math.cos(2 * Math.PI * f * (delayS + turn * 0.0002)) / (index + 1),
    0,
  );
  return depth * (modes + 1.6 * combing * Math.min(1, f / 100) * Math.min(1, 4000 / f));
}

function band(fraction: 1 | 3, nominalHz: number, voice: Voice, turn: number): BandMetrics {
  const low = nominalHz < (fraction === 1 ? 60 : 110);
  const time = 0.24 + 12 / (nominalHz + 30) + 0.012 * Math.sin(nominalHz + turn);
  const deep = nominalHz < 30;
  return {
    fraction,
    nominalHz,
    exactHz: 1000 * 10 ** (Math.round(10 * Math.log10(nominalHz / 1000)) / 10),
    levelDb: steady(voice, nominalHz, turn),
    levelUncertaintyDb: 0.2,
    noiseDb: -70,
    edtS: time * 0.8,
    t20S: deep ? null : time,
    t30S: low ? null : time * 1.03,
    lateS: nominalHz > 1500 ? time * 1.05 : null,
    c50Db: 18 - 3 / time,
    c80Db: 24 - 3 / time,
    d50: 0.98,
    tsS: time / 16,
    decayRangeDb: low ? 38.4 : 56.2,
    nonLinearityPerMille: 4.1,
    curvaturePercent: 3,
    decayUncertaintyS: deep ? null : 0.05 * time * Math.sqrt(100 / nominalHz),
    lateUncertaintyS: nominalHz > 1500 ? 0.03 * time : null,
    flags: [
      ...(low ? ["t30-range-too-small", "filter-limited"] : []),
      ...(nominalHz > 1500 ? ["direct-dominated"] : []),
    ],
  };
}

function reflections(turn: number): Measurement["reflections"] {
  const list: [number, number, boolean][] = [
    [0.00082, -9.4, true],
    [0.00312, -12.8, false],
    [0.0051, -15.5, false],
    [0.00943, -17.2, false],
    [0.0171, -19.8, false],
  ];
  return list.map(([at, levelDb, close], index) => {
    const delayS = at + turn * 0.0002;
    const inverted = index === 3;
    return {
      delayS,
      pathDifferenceM: delayS * 344,
      levelDb: levelDb + turn,
      levelUncertaintyDb: 0.3,
      polarity: inverted ? -1 : 1,
      firstNotchHz: (inverted ? 1 : 0.5) / delayS,
      close,
    };
  });
}

function energyTime(turn: number): NonNullable<Measurement["energyTime"]> {
  const stepS = 1 / 48_000;
  const startS = -0.005;
  const peaks = [{ delayS: 0, levelDb: 0 }, ...reflections(turn)];
  const levelDb = Array.from({ length: Math.round(0.065 / stepS) }, (_, n) => {
    const t = startS + n * stepS;
    const grain = Math.abs(Math.sin(n * 12.9898 + turn) * Math.cos(n * 4.1414));
    let energy = t < 0 ? 1e-7 : 10 ** (-2.6 - 60 * t) * (0.05 + grain);
    for (const { delayS, levelDb: peak } of peaks) {
      energy += 10 ** (peak / 10) * Math.exp(-(((t - delayS) / 0.00012) ** 2));
    }
    return 10 * Math.log10(energy);
  });
  return { startS, stepS, levelDb };
}

function distortion({ distortionDb, cornerHz }: Voice): NonNullable<Measurement["distortion"]> {
  const grid = frequencyHz.filter((f, index) => f >= 22.4 && f <= 9000 && index % 4 === 0);
  const harmonic = (order: number): (number | null)[] =>
    grid.map((f) => {
      if (f * order > 17_800) return null;
      const level =
        -48 - 7 * order + distortionDb + 18 / (1 + (f / cornerHz) ** 1.6) + 3 * Math.sin(5 * Math.log(f) + order);
      return level < -82 ? null : level;
    });
  const harmonicsDb = { "2": harmonic(2), "3": harmonic(3), "4": harmonic(4), "5": harmonic(5) };
  const thdPercent = grid.map((_, index) => {
    const known = Object.values(harmonicsDb).flatMap((curve) => curve[index] ?? []);
    return known.length === 0 ? null : 100 * Math.sqrt(known.reduce((sum, level) => sum + 10 ** (level / 10), 0));
  });
  return { frequencyHz: grid, harmonicsDb, thdPercent };
}
