using System.Collections.Concurrent;
using Google.Protobuf.Reflection;
using Contract = FoamRules.Contracts.V1;

namespace FoamRules.Exchange;

/// <summary>What the contract says of a field besides its type.</summary>
internal static class FieldMarks
{
    private static readonly ConcurrentDictionary<FieldDescriptor, Contract.FieldCheck> Checks = new();

    public static Contract.FieldCheck Of(FieldDescriptor field) =>
        Checks.GetOrAdd(field, static field => field.GetOptions()?.GetExtension(Contract.ChecksExtensions.Check) ?? new Contract.FieldCheck());
}
