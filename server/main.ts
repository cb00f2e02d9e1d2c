/** The language server as a program: `server.js --stdio`, or over Node's IPC where an editor starts it so. */
import { isMainThread } from "node:worker_threads";
import type { Message, ResponseMessage } from "vscode-languageserver/node";
import { createConnection, LSPErrorCodes, ProposedFeatures } from "vscode-languageserver/node";
import { listStored } from "./listStored.ts";
import { answerPicture, readInWorker } from "./pictureReader.ts";
import { readStored } from "./readStored.ts";
import { startServer } from "./server.ts";

function serve(): void {
  const connection = createConnection(ProposedFeatures.all, {
    connectionStrategy: {
      // A request that is cancelled while it waits is answered at once and never run.
      cancelUndispatched: ({ jsonrpc }: Message): ResponseMessage => ({
        jsonrpc,
        // The connection puts the number of the request here.
        id: null,
        error: { code: LSPErrorCodes.RequestCancelled, message: "The request was cancelled." },
      }),
    },
  });

  startServer(connection, {
    timer: {
      after: (ms, run) => {
        const timer = setTimeout(run, ms);
        return () => clearTimeout(timer);
      },
    },
    readFile: readStored,
    listFiles: listStored,
    readPicture: readInWorker(__filename),
  });
}

/** How a client may be talked to; without one the connection would end in a trace of minified code. */
const TRANSPORT = /^--(stdio|node-ipc|pipe|socket)\b/;

// Large pictures are read by a second thread of the same program.
if (!isMainThread) answerPicture();
else if (process.argv.some((argument) => TRANSPORT.test(argument))) serve();
else {
  process.stderr.write("dotwright: this is a language server, which an editor starts as `server.js --stdio`\n");
  process.exitCode = 2;
}
