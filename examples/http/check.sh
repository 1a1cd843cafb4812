#!/bin/sh
# Sends a plan, YAML or JSON, to a running FoamRules service over HTTP and prints the answer.
#   foamrules serve &
#   sh check.sh plan.yaml [http://localhost:5081]
case "$1" in *.json) type=application/json ;; *) type=application/yaml ;; esac
curl --silent --show-error --fail-with-body --max-time 30 --header "Content-Type: $type" --data-binary "@$1" "${2:-http://localhost:5081}/v1/plans:check"
