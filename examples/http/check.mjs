// Sends a plan, YAML or JSON, to a running FoamRules service over HTTP and prints the report. It needs no package.
//   foamrules serve &
//   node check.mjs plan.yaml [http://localhost:5081]
import { readFileSync } from 'node:fs'

const [file, address = 'http://localhost:5081'] = process.argv.slice(2)
const answer = await fetch(`${address}/v1/plans:check`, {
  method: 'POST',
  headers: { 'Content-Type': file.endsWith('.json') ? 'application/json' : 'application/yaml' },
  body: readFileSync(file),
  signal: AbortSignal.timeout(30000),
})
const body = await answer.json()
if (answer.ok) {
  console.log(JSON.stringify(body.report, null, 1))
} else {
  console.error(`${body.title}: ${body.detail}`)
  for (const { path, found, allowed, remedy } of body.violations ?? []) {
    console.error(`  ${path}: found ${found}; allowed: ${allowed}; ${remedy}`)
  }
  process.exitCode = 2
}
