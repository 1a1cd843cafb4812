// Sends a plan to a running FoamRules service and prints the report.
//   foamrules serve &
//   node check.mjs plan.json [localhost:5080]
import { readFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import grpc from '@grpc/grpc-js'
import loader from '@grpc/proto-loader'

const protos = join(dirname(fileURLToPath(import.meta.url)), '../../protos')
const definition = loader.loadSync('foamrules/v1/plan_check_service.proto', {
  includeDirs: [protos], keepCase: true, enums: String, longs: Number,
})
const { foamrules } = grpc.loadPackageDefinition(definition)
const [file, address = 'localhost:5080'] = process.argv.slice(2)
const client = new foamrules.v1.PlanCheckService(address, grpc.credentials.createInsecure())

// The library takes instants as seconds and nanoseconds; JSON writes them as text.
const instants = (value, key = '') => {
  const isInstant = /(^|_)(at|instant)$/.test(key)
  if (isInstant && typeof value === 'string') {
    return { seconds: Math.floor(Date.parse(value) / 1000), nanos: 0 }
  }
  if (isInstant && value) {
    return new Date((value.seconds ?? 0) * 1000).toISOString()
  }
  if (Array.isArray(value)) return value.map((entry) => instants(entry))
  if (value && typeof value === 'object') {
    return Object.fromEntries(Object.entries(value).map(([name, entry]) => [name, instants(entry, name)]))
  }
  return value
}

const plan = instants(JSON.parse(readFileSync(file, 'utf8')))
client.CheckPlan({ plan }, { deadline: Date.now() + 20000 }, (error, response) => {
  if (error) {
    console.error(`${grpc.status[error.code]}: ${error.details}`)
    process.exitCode = 2
  } else {
    console.log(JSON.stringify(instants(response.report), null, 1))
  }
  client.close()
})
