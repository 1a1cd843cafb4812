using System.Collections.Immutable;
using FoamRules.Model;

namespace FoamRules.Readings;

/// <summary>A report arranged for one reader: words, sections and lines, without any layout. A terminal and a page lay it out.</summary>
/// <param name="Word">The first word: what to do.</param>
/// <param name="Title">What the report is about.</param>
/// <param name="Head">The lines below the title.</param>
/// <param name="Sections">The sections in the order in which they are read; none of them is empty.</param>
public sealed record ReportView(string Word, string Title, ImmutableArray<string> Head, ImmutableArray<ReportSection> Sections);

/// <summary>A section.</summary>
/// <param name="Title">Its title.</param>
/// <param name="Entries">Its entries.</param>
public sealed record ReportSection(string Title, ImmutableArray<ReportEntry> Entries)
{
    /// <summary>What kind of section it is, the same in every language, such as <c>numbers</c>; empty where nobody needs to know.</summary>
    public string Name { get; init; } = "";
}

/// <summary>An entry of a section: one line, and what is said below it.</summary>
/// <param name="Text">The line.</param>
/// <param name="Details">What is said below it.</param>
public sealed record ReportEntry(string Text, params ImmutableArray<ReportDetail> Details)
{
    /// <summary>How hard it bites; null where it is no finding.</summary>
    public Severity? Severity { get; init; }

    /// <summary>The requirement of which it tells; empty where it is no finding.</summary>
    public string Requirement { get; init; } = "";
}

/// <summary>One thing said of an entry.</summary>
/// <param name="Label">What it is; empty where it speaks for itself.</param>
/// <param name="Text">What is said.</param>
public sealed record ReportDetail(string Label, string Text);
