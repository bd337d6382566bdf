// Run by node: lets the runtime itself compile what it will load. node make.mjs RUNTIME SOURCES PACK OUT
import { readFileSync, writeFileSync } from "node:fs";
import { pathToFileURL } from "node:url";

const [runtime, sources, pack, out] = process.argv.slice(2);
const { loadPyodide } = await import(pathToFileURL(`${runtime}/pyodide.mjs`).href);
const python = await loadPyodide({ indexURL: `${runtime}/` });
python.FS.writeFile("/sources.zip", readFileSync(sources));
python.runPython(readFileSync(pack, "utf8"));
writeFileSync(out, python.FS.readFile("/library.zip"));
