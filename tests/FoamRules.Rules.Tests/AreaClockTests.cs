using System.Text.Json.Nodes;
using FoamRules.Exchange;
using FoamRules.Model;
using FoamRules.Rules.Engine;
using FoamRules.Testing;
using FoamRules.Text;

namespace FoamRules.Rules.Tests;

/// <summary>The day's clock in a report: site time, waits rounded up, nothing promised that is not known.</summary>
public sealed class AreaClockTests
{
    private const string Hall = "areas[hall]";

    [Fact]
    public void Each_area_has_its_times_in_order()
    {
        var entries = Schedule();

        Assert.Equal(
            ["hall Tue 12 May 2026 08:00", "hall Tue 12 May 2026 15:30", "roof Wed 13 May 2026 08:00", "roof Wed 13 May 2026 12:00", "hall Wed 13 May 2026 15:30", "hall Thu 14 May 2026 15:30"],
            entries.Select(entry => $"{entry.Subject.Id} {entry.LocalTime}"));
        Assert.Equal("other trades not before this time", entries[4].What);
    }

    [Fact]
    public void A_wait_is_rounded_up_to_the_next_five_minutes()
    {
        // 15:31 and 24 h are 15:31 the next day; nobody reads 15:30.
        Assert.Equal("Wed 13 May 2026 15:35", Trades(($"{Hall}.last_spray_at", "2026-05-12T15:31:00-05:00")).LocalTime);
    }

    [Fact]
    public void A_day_on_which_the_clocks_change_has_its_hours()
    {
        // 31 October 15:30 daylight time and 24 h is 1 November 14:30 standard time.
        Assert.Equal("Sun 1 Nov 2026 14:30", Trades(($"{Hall}.last_spray_at", "2026-10-31T15:30:00-05:00")).LocalTime);
    }

    [Fact]
    public void The_later_of_plan_and_need_stands()
    {
        Assert.Equal("Wed 13 May 2026 21:30", Trades(($"{Hall}.reentry.trades_after", new JsonObject { ["hours"] = 30 })).LocalTime);
        Assert.Equal("Wed 13 May 2026 15:30", Trades(($"{Hall}.reentry.trades_after", new JsonObject { ["hours"] = 2 })).LocalTime);
    }

    [Fact]
    public void A_time_that_is_not_known_in_full_says_so()
    {
        var trades = Trades(("products[wall-foam].trades_reentry", null));

        Assert.Equal("Wed 13 May 2026 15:30", trades.LocalTime);
        Assert.Contains("not until it is known", trades.What, StringComparison.Ordinal);
    }

    [Fact]
    public void Air_that_never_clears_has_no_time()
    {
        var constant = new JsonArray(new JsonObject
        {
            ["substance"] = "mdi",
            ["at_end_by_mass"] = new JsonObject { ["milligrams_per_cubic_meter"] = 0.2 },
            ["source_per_hour_by_mass"] = new JsonObject { ["milligrams_per_cubic_meter"] = 0.5 },
            ["source_decay"] = new JsonObject { ["per_hour"] = 0 },
        });

        Assert.DoesNotContain(Schedule(($"{Hall}.airborne_levels", constant)), entry => entry.What.StartsWith("other trades", StringComparison.Ordinal));
    }

    [Fact]
    public void Passes_stand_on_the_clock_where_the_shift_and_their_time_are_known()
    {
        // From 07:00 two passes of 90 min with 30 min between them; 2 h of fans after 10:30.
        Assert.Equal(
            ["wall Tue 12 May 2026 07:00 pass 1", "wall Tue 12 May 2026 09:00 pass 2, and not sooner than 30 min after the pass before it has ended", "shop Tue 12 May 2026 12:30 fans run on until this time, and somebody of the crew stays"],
            Of("pass.yaml").Select(entry => $"{entry.Subject.Id} {entry.LocalTime} {entry.What}"));
        Assert.Empty(Of("pass.yaml", ("work[wall].spray.time_per_pass", null)));
        Assert.Empty(Of("pass.yaml", ("stage", "close-out")));
    }

    [Fact]
    public void The_first_turn_of_a_rotation_stands_on_the_clock()
    {
        // Twelve posts, 13.2 s a shot and 4 min of walk: the twelfth 11 × 253.2 s after 08:00, back at the first 11 × 240 + 13.2 s later.
        var pours = Of("fill.yaml", ("areas[hall].first_spray_at", "2026-05-12T08:00:00-04:00")).Where(entry => entry.Subject.Id == "posts").ToList();

        Assert.Equal(24, pours.Count);
        Assert.Equal("Tue 12 May 2026 08:46 pour 1 into cavity 12", $"{pours[11].LocalTime} {pours[11].What}");
        Assert.Equal("Tue 12 May 2026 09:30 pour 2 into cavity 1, and not sooner than 45 min after the shot before it there has ended", $"{pours[12].LocalTime} {pours[12].What}");
    }

    private static ScheduleEntry Trades(params (string Path, JsonNode? Value)[] changes) =>
        Schedule(changes).Single(entry => entry.What.StartsWith("other trades", StringComparison.Ordinal));

    private static List<ScheduleEntry> Schedule(params (string Path, JsonNode? Value)[] changes) => Of("air.yaml", changes);

    private static List<ScheduleEntry> Of(string file, params (string Path, JsonNode? Value)[] changes)
    {
        var plan = TreeEdit.ToJson(DataText.Read(File.ReadAllText(Repository.PathOf("shared", "cases", "base", file)), file).Root!)!;
        foreach (var (path, value) in changes)
        {
            TreeEdit.Set(plan, path, value);
        }

        var read = PlanReader.ReadText(plan.ToJsonString(), null, new ReadOptions(default));
        return [.. Repository.Engine.Check(read.Plan!, new CheckOptions(read.Digest), TestContext.Current.CancellationToken).Report!.Schedule];
    }
}
