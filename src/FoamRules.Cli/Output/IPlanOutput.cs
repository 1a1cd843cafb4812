using FoamRules.Cli.Commands;
using FoamRules.Exchange;
using FoamRules.Model;
using FoamRules.Readings;
using Google.Protobuf;

namespace FoamRules.Cli.Output;

/// <summary>How reports are written.</summary>
internal interface IPlanOutput
{
    /// <summary>Writes a report.</summary>
    /// <param name="report">The report.</param>
    /// <param name="plan">The plan that it is of.</param>
    void Write(Report report, PlanChecked plan);

    /// <summary>Writes what came of several plans.</summary>
    void WriteSummary(IReadOnlyList<PlanChecked> plans);

    /// <summary>Writes what stands at the very end.</summary>
    void Finish()
    {
    }
}

/// <summary>Text for a person, arranged for whoever reads it.</summary>
/// <param name="words">The words.</param>
/// <param name="reader">Who reads it.</param>
/// <param name="all">Everything in full.</param>
internal sealed class TextOutput(ReadingWords words, Reader reader, bool all) : IPlanOutput
{
    private bool _follows;

    public void Write(Report report, PlanChecked plan)
    {
        if (_follows)
        {
            Console.Out.WriteLine();
        }

        _follows = true;
        Console.Out.WriteLine(ReportText.Write(ReportReading.Of(report, reader, words, all), words));
    }

    public void WriteSummary(IReadOnlyList<PlanChecked> plans)
    {
        Console.Out.WriteLine();
        BatchSummary.Write(plans, words);
    }
}

/// <summary>JSON Lines for a program: one report a line, and nothing else.</summary>
internal sealed class JsonOutput : IPlanOutput
{
    public void Write(Report report, PlanChecked plan) => Console.Out.WriteLine(JsonFormatter.Default.Format(ReportMapper.ToMessage(report)));

    public void WriteSummary(IReadOnlyList<PlanChecked> plans)
    {
        // A program counts for itself.
    }
}
