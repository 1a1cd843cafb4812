using System.Globalization;
using FoamRules.Calculations;
using Google.Protobuf.WellKnownTypes;
using Contract = FoamRules.Contracts.V1;
using Duration = UnitsNet.Duration;

namespace FoamRules.Exchange.Calculating;

/// <summary>A day's work on the site's clock.</summary>
internal static class DayCalculator
{
    public static Contract.DayResponse Run(Contract.DayRequest request, Working working)
    {
        var shift = new DayShift(
            request.Shift.TimeZone, DateOnly.ParseExact(request.Shift.Date, "yyyy-MM-dd", CultureInfo.InvariantCulture), Time(request.Shift.From), Time(request.Shift.To));
        var timetable = working.Take(Day.Plan(
            shift,
            [.. request.Steps.Select(Step)],
            [.. request.Clearances.Select(clearance => new AirClearance(clearance.Air, clearance.Purpose, clearance.Wait.Quantity()))],
            request.RoundTo?.Quantity() ?? Duration.Zero));
        return new Contract.DayResponse
        {
            Entries = { timetable.Steps.Select(Entry) },
            Clearances = { timetable.Clearances.Select(Cleared) },
            FitsOneShift = timetable.FitsOneShift,
            Days = timetable.Days,
            Missed = { timetable.Missed.Select(Missed) },
        };
    }

    private static DayStep Step(Contract.DayStep step) => new(
        step.Id,
        System.Enum.Parse<DayStepKind>(step.Kind.ToString()),
        step.Duration.Quantity(),
        step.SoilsAir.Length == 0 ? null : step.SoilsAir,
        [.. step.Gaps.Select(gap => new DayGap(gap.After, gap.AtLeast.Quantity(), gap.AtMost?.Quantity()))],
        step.Longest?.Quantity());

    private static Contract.DayEntry Entry(DayEntry entry) => new()
    {
        Id = entry.Id,
        Kind = System.Enum.Parse<Contract.DayStepKind>(entry.Kind.ToString()),
        Day = entry.Day,
        Start = Timestamp.FromDateTimeOffset(entry.Start),
        End = Timestamp.FromDateTimeOffset(entry.End),
        LocalStart = Local(entry.Start),
        LocalEnd = Local(entry.End),
    };

    private static Contract.ClearedAir Cleared(ClearanceEntry entry) => new()
    {
        Air = entry.Air,
        Purpose = entry.For,
        Day = entry.Day,
        ClockStarts = Timestamp.FromDateTimeOffset(entry.ClockStarts),
        Cleared = Timestamp.FromDateTimeOffset(entry.Cleared),
        LocalClockStarts = Local(entry.ClockStarts),
        LocalCleared = Local(entry.Cleared),
        AfterShift = entry.AfterShift,
        Broken = entry.Broken,
    };

    private static Contract.MissedTime Missed(DayMiss miss) => new()
    {
        Id = miss.Id,
        After = miss.After ?? "",
        Allowed = miss.Allowed.Message(),
        Found = miss.Found.Message(),
    };

    private static TimeOnly Time(string text) => TimeOnly.ParseExact(text, "HH:mm", CultureInfo.InvariantCulture);

    private static string Local(DateTimeOffset at) => at.ToString("ddd d MMM HH:mm", CultureInfo.InvariantCulture);
}
