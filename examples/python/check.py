"""Sends a plan to a running FoamRules service and prints the report.

  foamrules serve &
  protoc -I ../../protos --python_out=generated ../../protos/foamrules/v1/*.proto ../../protos/google/*/*.proto
  PYTHONPATH=generated python3 check.py plan.json [localhost:5080]

Debian: apt-get install python3-grpcio python3-protobuf protobuf-compiler
"""
import sys

import grpc
from google.protobuf import json_format
from foamrules.v1 import plan_check_service_pb2 as service

file, address = sys.argv[1], (sys.argv[2:] or ["localhost:5080"])[0]
request = service.CheckPlanRequest()
with open(file, encoding="utf-8") as plan:
    json_format.Parse(plan.read(), request.plan)

with grpc.insecure_channel(address) as channel:
    check = channel.unary_unary(
        "/foamrules.v1.PlanCheckService/CheckPlan",
        request_serializer=service.CheckPlanRequest.SerializeToString,
        response_deserializer=service.CheckPlanResponse.FromString,
    )
    try:
        response = check(request, timeout=20)
    except grpc.RpcError as error:
        sys.exit(f"{error.code().name}: {error.details()}")

print(json_format.MessageToJson(response.report, preserving_proto_field_name=True, indent=1))
