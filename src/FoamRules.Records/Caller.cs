using FoamRules.Contracts.V1;

namespace FoamRules.Records;

/// <summary>Who acts.</summary>
/// <param name="Name">The person's name.</param>
/// <param name="Role">In which capacity.</param>
/// <param name="Identity">How sure that is.</param>
public sealed record Caller(string Name, Role Role, Identity Identity = Identity.Stated);
