using FoamRules.Model;
using FoamRules.Rules.Facts;

namespace FoamRules.Rules.Body;

/// <summary>What a person wears, as far as several requirements ask for it.</summary>
internal static class Worn
{
    /// <summary>True where the plan says that a supplied-air set is worn.</summary>
    public static bool IsSuppliedAir(PersonFacts person) => person.Person.Respirator is { Type: RespiratorType.SuppliedAir };

    /// <summary>True where the plan says that nothing is worn that seals on the face. Not given counts as tight.</summary>
    public static bool SealsNowhere(PersonFacts person) =>
        person.Person.Respirator is { Type: RespiratorType.None } or { Facepiece: Facepiece.HelmetOrHood or Facepiece.LooseFitting };

    /// <summary>The tasks of a person; every task where the plan names none.</summary>
    public static IEnumerable<CrewTask> Tasks(PersonFacts person) => person.Person.Tasks.IsEmpty ? Enum.GetValues<CrewTask>() : person.Person.Tasks;
}
