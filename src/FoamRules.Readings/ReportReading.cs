using FoamRules.Model;

namespace FoamRules.Readings;

/// <summary>Arranges a report for whoever reads it. What is judged is the same for all; what is shown, and in which order, is not.</summary>
public static class ReportReading
{
    /// <summary>The view of a report.</summary>
    /// <param name="report">The report.</param>
    /// <param name="reader">Who reads it.</param>
    /// <param name="words">The words.</param>
    /// <param name="all">Everything in full.</param>
    public static ReportView Of(Report report, Reader reader, ReadingWords words, bool all)
    {
        var arrangement = new Arrangement(report, words, all);
        return reader switch
        {
            Reader.Office => OfficeReading.Of(arrangement),
            Reader.Safety => SafetyReading.Of(arrangement),
            Reader.Crew => CrewReading.Of(arrangement),
            _ => WholeReading.Of(arrangement),
        };
    }
}
