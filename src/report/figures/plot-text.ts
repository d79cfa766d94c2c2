/**
 * Text for the plot library, which reads a few tags, entities, formulas and `%{...}` in the names it is given.
 *
 * @example plotText("<b>A & B</b>") // "&lt;b&gt;A &amp; B&lt;/b&gt;"
 */
export function plotText(text: string): string {
  return text
    .replace(/&/g, "&amp;")
    .replace(/</g, "&lt;")
    .replace(/>/g, "&gt;")
    .replace(/\$/g, "&#36;")
    .replace(/%\{/g, "%\u200b{")
    .replace(/\s+/g, " ");
}
