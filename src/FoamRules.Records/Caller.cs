using FoamRules.Contracts.V1;

namespace FoamRules.Records;

/// <summary>Who acts, as stated.</summary>
/// <param name="Name">The person's name.</param>
/// <param name="Role">In which capacity.</param>
public sealed record Caller(string Name, Role Role);
