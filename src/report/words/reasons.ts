/** Why a figure is not there, in words; codes that are not listed read as they are written. */
const reasons: Readonly<Record<string, string>> = {
  "not-measured-at-mix": "not measured at the mix position",
  "no-mix-position": "no measurement at the mix position",
  "one-channel": "only one channel was measured",
  "no-loopback": "no loopback was recorded",
};

export function reasonWords(code: string): string {
  return reasons[code] ?? code.replaceAll("-", " ");
}
