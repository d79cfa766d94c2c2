// A run in small: writes the files of one generation together. Arguments: the output folder, the generation, its files.
import { mkdirSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";

import { writeTogether } from "../../../dist/files/stage.js";

const [out, generation, files, obsolete] = process.argv.slice(2);
await writeTogether(out, (stage) => {
  for (const name of files.split(",")) {
    mkdirSync(dirname(join(stage, name)), { recursive: true });
    writeFileSync(join(stage, name), `${name} of the ${generation} run`);
  }
  return Promise.resolve({ obsolete: obsolete.split(",") });
});
