import type { Results } from "../../model.js";
import { fixed, unknownMark } from "../../words/numbers.js";
import { figures, number, type Section, table, words } from "./section.js";

/** What was read, with digests by which anyone can tell whether it is the same. */
export function fileSection({ provenance }: Results): Section {
  return {
    id: "files",
    heading: "Files",
    pictures: [],
    tables: [
      table(
        {
          caption: "Files read",
          folded: false,
          columns: [
            words("File"),
            words("Use"),
            figures("Rate, Hz"),
            figures("Channels"),
            figures("Length, s"),
            words("Encoding"),
            figures("Bytes"),
            words("SHA-256"),
          ],
          rows: provenance.files.map((file) => [
            words(file.file),
            words(file.use),
            file.sampleRate === null ? figures(unknownMark) : figures(fixed(file.sampleRate, 0)),
            number(file.channels, 0),
            number(file.durationS, 2),
            words(file.encoding ?? unknownMark),
            figures(grouped(file.bytes)),
            words(file.sha256),
          ]),
          notes: [],
        },
        "does not apply.",
      ),
    ],
  };
}

function grouped(count: number): string {
  return String(count).replace(/(\d)(?=(\d{3})+$)/g, "$1\u202f");
}
