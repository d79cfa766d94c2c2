/** What quantities of a comparison are called, in the middle of a sentence; one that is not listed reads as it is written. */
const names: Readonly<Record<string, string>> = {
  levelDb: "level by third octave, re 200 Hz to 4 kHz",
  overallDb: "level, 200 Hz to 4 kHz",
  edtS: "early decay time EDT",
  t20S: "decay time T20",
  t30S: "decay time T30",
  lateS: "decay behind the direct sound",
  modeHz: "frequency of a mode",
  modeT60S: "decay of a mode",
  c50Db: "clarity C50",
  c80Db: "clarity C80",
  reflectionDb: "early reflections, re the direct sound",
  targetDb: "deviation from the target",
  minus3Hz: "lower end, −3 dB",
  minus6Hz: "lower end, −6 dB",
  minus10Hz: "lower end, −10 dB",
  leftRightDb: "left minus right, level",
  leftRightArrivalS: "left minus right, arrival",
  noiseDb: "background noise",
  roomLevelDb: "mean level over the places",
  roomDecayS: "mean decay time over the places",
  flutterDb: "echoes of a flutter, over what lies between them",
  flutterT60S: "decay of a flutter",
  lateSlopeS: "second slope of a decay",
  secondSlopeS: "second slope of a decay, where only one side has it",
  trust: "trust map",
};

export function quantityName(quantity: string): string {
  return names[quantity] ?? quantity;
}
