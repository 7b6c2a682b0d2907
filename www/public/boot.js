// Opens the page: compiles the program once and hands it to the page, which shares it with its workers.

import init, { start_page } from "./dappledome.js";

const TOO_OLD = "Dappledome cannot open: this browser does not run WebAssembly with SIMD. "
  + "Any current browser does; please update this one or take another.";

// The smallest program with SIMD in it: i8x16.splat and i8x16.popcnt.
const SIMD_PROGRAM = new Uint8Array([
  0, 97, 115, 109, 1, 0, 0, 0, 1, 5, 1, 96, 0, 1, 123, 3, 2, 1, 0, 10, 10, 1, 8, 0, 65, 0, 253, 15, 253, 98, 11,
]);

function say(text) {
  const place = document.getElementById("opening");
  if (place) place.textContent = text;
}

async function compile() {
  const answer = await fetch(new URL("dappledome_bg.wasm", import.meta.url));
  if (!answer.ok) throw new Error(`${answer.status} for ${answer.url}`);
  // Streaming needs the right type, which some static hosts do not send.
  if (answer.headers.get("Content-Type") === "application/wasm") return WebAssembly.compileStreaming(answer);
  return WebAssembly.compile(await answer.arrayBuffer());
}

async function open() {
  if (typeof WebAssembly !== "object" || !WebAssembly.validate(SIMD_PROGRAM)) return say(TOO_OLD);
  try {
    const module = await compile();
    await init({ module_or_path: module });
    // The page opens in a task of its own, so that no single one holds the browser up for long.
    await new Promise((next) => setTimeout(next));
    document.getElementById("opening")?.remove();
    start_page(module, new URL("worker.js", import.meta.url).href);
  } catch (fault) {
    dispatchEvent(new Event("not-opened"));
    throw fault;
  }
  dispatchEvent(new Event("opened"));
  // What cannot be kept for times without a network works all the same while there is one.
  import("./offline.js").then(({ keep }) => keep().catch(() => {}), () => dispatchEvent(new Event("part-missing")));
}

open();
