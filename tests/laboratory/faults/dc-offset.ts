import { type Fault, inFirstRecording, type Strength } from "../fault.js";

const add = (offset: number): Strength["inject"] =>
  inFirstRecording((samples) => samples.map((value) => value + offset));

export const dcOffsetFault: Fault = {
  what: "the converter adds a constant",
  code: "dc-offset",
  severity: "warning",
  strengths: [
    { strength: "0.3 % of full scale", verdict: "harmless", isSlow: true, inject: add(0.003) },
    { strength: "3 % of full scale", verdict: "harmful", inject: add(-0.03) },
  ],
};
