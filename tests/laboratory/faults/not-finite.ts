import { type Fault, inFirstRecording, type Strength } from "../fault.js";

/** Overwrites one sample of a float file so far into the file's bytes. */
function put(value: number): Strength["inject"] {
  const rewrite = (bytes: Uint8Array): Uint8Array => {
    // Samples are counted from the end: what stands before them is of any length.
    const at = bytes.length - 4 * Math.floor(bytes.length / 8);
    new DataView(bytes.buffer, bytes.byteOffset).setFloat32(at, value, true);
    return bytes;
  };
  return inFirstRecording((samples) => samples, { format: "float32", rewrite });
}

export const notFiniteFault: Fault = {
  what: "the workstation wrote something that is no number",
  code: "not-finite",
  severity: "reject",
  strengths: [
    { strength: "one sample of 1e-40", verdict: "harmless", isSlow: true, inject: put(1e-40) },
    { strength: "one sample not a number", verdict: "harmful", inject: put(Number.NaN) },
    { strength: "one infinite sample", verdict: "harmful", inject: put(Number.POSITIVE_INFINITY) },
  ],
};
