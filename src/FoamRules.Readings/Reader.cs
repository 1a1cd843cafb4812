namespace FoamRules.Readings;

/// <summary>Who reads a report.</summary>
public enum Reader
{
    /// <summary>Anybody: the whole report.</summary>
    Anybody = 0,

    /// <summary>The office: scope, price list, what is not known, days.</summary>
    Office = 1,

    /// <summary>The safety officer: by hazard, with evidence, sources and layers.</summary>
    Safety = 2,

    /// <summary>The crew: go, hold or stop, and today's numbers, on one screen.</summary>
    Crew = 3,
}
