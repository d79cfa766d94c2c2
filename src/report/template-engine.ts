import { Liquid } from "liquidjs";

import { InputError } from "../errors.js";

/** Filters that would let a template undo the escaping, read the clock, or differ from run to run. */
const withheld = [
  "raw",
  "date",
  "date_to_xmlschema",
  "date_to_rfc822",
  "date_to_string",
  "date_to_long_string",
  "sample",
];

/**
 * The only door to the template language.
 *
 * Every output is escaped, a name or filter that does not exist is an error rather than silence, only own properties
 * can be read, and nothing outside the template itself can be included: the set of includable files is empty.
 */
const engine = new Liquid({
  outputEscape: "escape",
  strictVariables: true,
  strictFilters: true,
  ownPropertyOnly: true,
  templates: {},
});
// liquidjs keeps its filters in a table with a null prototype and offers no other way to take one out.
for (const name of withheld) Reflect.deleteProperty(engine.filters, name);

/**
 * Fills a template with a view made of plain objects, arrays and strings.
 *
 * @throws {InputError} if the template does not parse, or asks for a name or filter that does not exist
 */
export function fillTemplate(template: string, view: object): string {
  try {
    return String(engine.parseAndRenderSync(template, view));
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error);
    throw new InputError("The report template cannot be filled.", {
      where: `report template: ${reason}`,
      remedy: "compare the template with report-templates/report.liquid, which is known to work",
    });
  }
}
