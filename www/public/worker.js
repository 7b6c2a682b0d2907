// Opens a worker. The page's first message is the compiled program; what comes after it is for the program.

import init, { start_worker } from "./dappledome.js";

// Set before anything is awaited: a message that comes while there is no handler is lost.
self.onmessage = ({ data: module }) => {
  // start_worker puts its own handler in this one's place and says that it is ready. What fails here reaches the
  // page as the worker's error; a rejected promise would not.
  init({ module_or_path: module }).then(start_worker).catch(reportError);
};
