// Fetches parts of the program when they are first wanted. The bundler adds a line for each: `export const ... = part([files])`.

import { initSync } from "./dappledome.js";

// A file belongs to all parts that name it, and comes in once: what it holds of the memory must not be laid out anew.
const files = new Map();
const missed = new Set();

function come(name) {
  if (!files.has(name)) {
    files.set(name, load(name).catch((fault) => {
      files.delete(name);
      missed.add(name);
      throw fault;
    }));
  }
  return files.get(name);
}

async function load(name) {
  // What the browser remembers may be half of it: the next time the host is asked.
  const answer = await fetch(new URL(name, import.meta.url), { cache: missed.has(name) ? "reload" : "default" });
  if (!answer.ok) throw new Error(`${answer.status} for ${answer.url}`);
  // Not streamed: that needs the right type, which some static hosts do not send.
  return WebAssembly.instantiate(await answer.arrayBuffer(), { __wasm_split: initSync() });
}

// What the program calls: it is told, by the function of its table that it names, whether the part is there.
function part(names) {
  return async (heard, whom) => {
    let there = true;
    try {
      await Promise.all(names.map(come));
    } catch (fault) {
      there = false;
      console.warn(fault);
    }
    initSync().__indirect_function_table.get(heard)(whom, there);
  };
}
