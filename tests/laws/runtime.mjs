// Runs Python in the runtime of "My gauge": node runtime.mjs FOLDER SCRIPT INPUT; prints what it prints.
import { mkdtempSync, readFileSync, rmSync, writeFileSync, copyFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";

const [folder, script, input] = process.argv.slice(2);
const there = mkdtempSync(join(tmpdir(), "runtime-"));
try {
  copyFileSync(join(folder, "unpack.js"), join(there, "unpack.mjs"));
  const { decompress } = await import(pathToFileURL(join(there, "unpack.mjs")).href);
  for (const [from, to] of [["python.bin", "pyodide.asm.wasm"], ["library.bin", "library.zip"]]) {
    writeFileSync(join(there, to), decompress(readFileSync(join(folder, from))));
  }
  copyFileSync(join(folder, "python.js"), join(there, "pyodide.asm.mjs"));
  copyFileSync(join(folder, "loader.js"), join(there, "loader.mjs"));
  const { info } = JSON.parse(readFileSync(join(folder, "runtime.json"), "utf8"));
  const { loadPyodide } = await import(pathToFileURL(join(there, "loader.mjs")).href);
  const python = await loadPyodide({ indexURL: `${there}/`, stdLibURL: join(there, "library.zip"),
    lockFileContents: { info, packages: {} } });
  python.globals.set("given", readFileSync(input, "utf8"));
  python.runPython(readFileSync(script, "utf8"));
} finally {
  rmSync(there, { recursive: true });
}
