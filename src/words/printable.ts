/** A name from outside for a line of a terminal: without what would steer it. */
export function printable(name: string): string {
  return name.replace(/\p{C}/gu, "\uFFFD");
}
