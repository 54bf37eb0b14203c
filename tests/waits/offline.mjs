// Answers by the planner in WebAssembly: a line of JSON for each line of JSON, with how long the answer took.
import { readFile } from "node:fs/promises";
import { createInterface } from "node:readline";
import { pathToFileURL } from "node:url";

const [script, wasm] = process.argv.slice(2);
const planner = await import(pathToFileURL(script));
await planner.default({ module_or_path: await readFile(wasm) });

for await (const line of createInterface({ input: process.stdin })) {
  const [operation, body] = JSON.parse(line);
  const begun = performance.now();
  const reply = planner.answer(operation, body);
  const { status } = reply;
  const bytes = reply.intoBody();
  const took_s = (performance.now() - begun) / 1000;
  console.log(JSON.stringify({ took_s, status, body: Buffer.from(bytes).toString("base64") }));
}
