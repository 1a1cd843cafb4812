namespace FoamRules.RuleSets.Declared;

/// <summary>Instants, dates and lengths of time of compiled expressions.</summary>
internal static class Times
{
    public static Value<double> Between(Frame frame, DateTimeOffset a, DateTimeOffset b) => Numbers.Checked(frame, (a - b).TotalSeconds, Numbers.LongestSeconds);

    public static double Days(DateOnly a, DateOnly b) => (a.DayNumber - b.DayNumber) * 86400.0;

    public static Value<DateTimeOffset> Move(Frame frame, DateTimeOffset instant, double seconds)
    {
        var ticks = (Int128)Math.Round(seconds * TimeSpan.TicksPerSecond) + instant.UtcTicks;
        return ticks >= DateTimeOffset.MinValue.UtcTicks && ticks <= DateTimeOffset.MaxValue.UtcTicks
            ? new Value<DateTimeOffset>(new DateTimeOffset((long)ticks, TimeSpan.Zero))
            : frame.Fail<DateTimeOffset>("an instant outside the years 1 to 9999");
    }
}
