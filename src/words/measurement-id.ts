const SIDES: Readonly<Record<string, string>> = { L: "left", R: "right", both: "phantom centre" };

/**
 * The id of a measurement as it is spoken of; anything else as it is written.
 *
 * @example spokenId("mains-both@forward") // "mains, phantom centre, at forward"
 */
export function spokenId(id: string): string {
  const parts = /^(.+)-(L|R|both)@(.+)$/s.exec(id);
  return parts ? `${parts[1]!}, ${SIDES[parts[2]!]!}, at ${parts[3]!}` : id;
}
