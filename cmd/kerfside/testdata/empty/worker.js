postMessage("here");
