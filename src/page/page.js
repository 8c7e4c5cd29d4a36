/* What makes a page of becket handier; nothing depends on it. */
"use strict";
