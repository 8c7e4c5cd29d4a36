#!/bin/sh
# The tier `quick`: what an answer within a breath can tell of a change. See tests/run.sh.
exec sh "$(dirname -- "$0")/run.sh" quick
