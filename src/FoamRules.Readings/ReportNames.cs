using FoamRules.Model;

namespace FoamRules.Readings;

/// <summary>What the parts of a report are called in English; in the language of a report they are named by <see cref="ReadingWords"/>.</summary>
public static class ReportNames
{
    /// <summary>The id of whoever stands in where a plan names nobody for its work.</summary>
    internal const string UnknownCrew = "crew";

    /// <summary>A subject.</summary>
    public static string Of(Subject subject) => subject.Kind switch
    {
        SubjectKind.Plan => "the job",
        SubjectKind.Area => $"area {subject.Id}",
        SubjectKind.Product => $"product {subject.Id}",
        SubjectKind.Person when subject.Id == UnknownCrew => "the crew",
        SubjectKind.Person => $"person {subject.Id}",
        _ => subject.Id,
    };

    /// <summary>A stage.</summary>
    public static string Of(Stage stage) => stage switch
    {
        Stage.PreStart => "pre-start",
        Stage.CloseOut => "close-out",
        _ => stage.ToString().ToLowerInvariant(),
    };

    /// <summary>A severity.</summary>
    public static string Of(Severity severity) => severity switch
    {
        Severity.StopWork => "stop work",
        Severity.HoldPoint => "hold point",
        _ => severity.ToString().ToLowerInvariant(),
    };

    /// <summary>How a source is known.</summary>
    public static string Of(SourceStatus status) => status switch
    {
        SourceStatus.Read => "text read",
        SourceStatus.Secondary => "read as restated by others",
        SourceStatus.FromMemory => "from memory",
        SourceStatus.CommonPractice => "common practice, no source",
        SourceStatus.DataSheet => "as given in the plan",
        _ => "arithmetic",
    };
}
