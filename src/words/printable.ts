/** What the colours of a terminal are written with; whatever else steers it has no place in a text. */
const STYLE = /(\u001b\[\d{1,2}m)/;

/**
 * A text for a terminal, in which names from outside may stand: without what would steer it.
 *
 * @param isStyled - the text may hold colours of our own
 */
export function printableText(text: string, isStyled: boolean): string {
  const parts = isStyled ? text.split(STYLE) : [text];
  return parts.map((part, n) => (n % 2 === 1 ? part : part.replace(/[^\P{C}\n]/gu, "\uFFFD"))).join("");
}

/** A name from outside for a line of a terminal: without what would steer it. */
export function printable(name: string): string {
  return name.replace(/\p{C}/gu, "\uFFFD");
}
