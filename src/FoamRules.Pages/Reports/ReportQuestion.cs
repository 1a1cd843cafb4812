using System.Collections.Immutable;
using FoamRules.Model;
using FoamRules.Readings;
using Microsoft.Extensions.Primitives;

namespace FoamRules.Pages.Reports;

/// <summary>What a reader asks of a report: which plan, for whom, in which units, at which stage.</summary>
public sealed record ReportQuestion
{
    /// <summary>The name of an example plan; null: the plan is the reader's own.</summary>
    public string? Example { get; init; }

    /// <summary>The plan's text.</summary>
    public string Plan { get; init; } = "";

    /// <summary>What the plan's file is called, for messages; null where it was pasted.</summary>
    public string? File { get; init; }

    /// <summary>Who reads; null: whoever reads at the plan's stage.</summary>
    public Reader? Reader { get; init; }

    /// <summary>The units; null: by the plan's country.</summary>
    public DisplayUnits? Units { get; init; }

    /// <summary>The stage; null: the plan's own.</summary>
    public Stage? Stage { get; init; }

    /// <summary>Try what would put findings right.</summary>
    public bool Tried { get; init; }

    /// <summary>Everything in full.</summary>
    public bool All { get; init; }

    /// <summary>The stages by the names that stand in addresses and forms.</summary>
    public static ImmutableArray<(string Name, Stage Stage)> Stages { get; } =
        [("quote", Model.Stage.Quote), ("plan", Model.Stage.Plan), ("pre-start", Model.Stage.PreStart), ("close-out", Model.Stage.CloseOut)];

    /// <summary>The readers by name, in the order in which a job meets them.</summary>
    public static ImmutableArray<(string Name, Reader Reader)> Readers { get; } =
        [("office", Readings.Reader.Office), ("safety", Readings.Reader.Safety), ("crew", Readings.Reader.Crew), ("whole", Readings.Reader.Anybody)];

    /// <summary>The units by name.</summary>
    public static ImmutableArray<(string Name, DisplayUnits Units)> UnitSystems { get; } = [("us", DisplayUnits.Us), ("si", DisplayUnits.Si)];

    /// <summary>Reads a question from the fields of a form or an address.</summary>
    /// <param name="fields">The values of a field; the last counts, so that a button outweighs what its form says anyway.</param>
    /// <param name="violations">Everything that is wrong.</param>
    public static ReportQuestion Read(Func<string, StringValues> fields, out IReadOnlyList<Violation> violations)
    {
        var wrong = new List<Violation>();
        violations = wrong;
        return new ReportQuestion
        {
            Example = Field("example") is { Length: > 0 } example ? One("example", example, ExamplePlans.Names) : null,
            Plan = (Field("example") is { Length: > 0 } named ? ExamplePlans.Text(named) : Field("plan")) ?? "",
            Reader = Of("for", Readers),
            Units = Of("units", UnitSystems),
            Stage = Of("stage", Stages),
            Tried = Field("tried") is { Length: > 0 },
            All = Field("all") is { Length: > 0 },
        };

        string? Field(string name) => fields(name) is { Count: > 0 } given ? given[^1] : null;

        string? One(string name, string given, IEnumerable<string> allowed)
        {
            if (allowed.Contains(given))
            {
                return given;
            }

            wrong.Add(new Violation(name, $"`{given}`", string.Join(", ", allowed), "use one of these, or leave it out"));
            return null;
        }

        T? Of<T>(string name, ImmutableArray<(string Name, T Value)> allowed)
            where T : struct =>
            Field(name) is { Length: > 0 } given && One(name, given, allowed.Select(pair => pair.Name)) is { } known ? allowed.First(pair => pair.Name == known).Value : null;
    }
}
