// Run by node: lets the runtime itself compile what it will load, and pack it.
// node make.mjs RUNTIME SOURCES PACK SQUEEZE OUT
import { readFileSync, writeFileSync } from "node:fs";
import { pathToFileURL } from "node:url";

const [runtime, sources, pack, squeeze, out] = process.argv.slice(2);
const { loadPyodide } = await import(pathToFileURL(`${runtime}/pyodide.mjs`).href);
const python = await loadPyodide({ indexURL: `${runtime}/` });
python.FS.writeFile("/sources.zip", readFileSync(sources));
python.FS.writeFile("/python.wasm", readFileSync(`${runtime}/pyodide.asm.wasm`));
for (const script of [pack, squeeze]) python.runPython(readFileSync(script, "utf8"));
for (const name of ["python.bin", "library.bin"]) writeFileSync(`${out}/${name}`, python.FS.readFile(`/${name}`));
