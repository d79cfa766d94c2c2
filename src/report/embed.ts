/** Ways to put text into a page so that the text cannot become anything but what it is. */

const escapes: Readonly<Record<string, string>> = {
  "<": "\\u003c",
  ">": "\\u003e",
  "&": "\\u0026",
  "\u2028": "\\u2028",
  "\u2029": "\\u2029",
};

/**
 * Writes data as JSON that may stand inside a script element: no tag, comment or entity can begin in it.
 *
 * @example embeddedJson("</script>") // "\"\\u003c/script\\u003e\""
 */
export function embeddedJson(data: unknown): string {
  return JSON.stringify(data).replace(/[<>&\u2028\u2029]/g, (character) => escapes[character]!);
}

/**
 * Makes program text safe to stand inside a script element.
 *
 * In strings and regular expressions, the only places where a program holds these letters, `\/` and `\!` read as
 * `/` and `!`. Line ends are made single first, because a browser does so before it compares the hash.
 */
export function inlineProgram(program: string): string {
  return program
    .replace(/\r\n?/g, "\n")
    .replace(/<\/(?=script)/gi, "<\\/")
    .replace(/<!--/g, "<\\!--");
}

/** Style text with nothing in it that could close its element. */
export function inlineStyle(style: string): string {
  return style.replace(/<\/(?=style)/gi, "<\\/");
}

/** The source expression that lets exactly this inline program run under a content security policy. */
export async function programHash(program: string): Promise<string> {
  const digest = await globalThis.crypto.subtle.digest("SHA-256", new TextEncoder().encode(program));
  return `'sha256-${btoa(String.fromCharCode(...new Uint8Array(digest)))}'`;
}
