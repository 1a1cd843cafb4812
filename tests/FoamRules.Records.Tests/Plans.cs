using FoamRules.Contracts.V1;
using FoamRules.Exchange;
using FoamRules.Testing;
using Google.Protobuf.WellKnownTypes;

namespace FoamRules.Records.Tests;

/// <summary>The example plan, and what is changed in it.</summary>
internal static class Plans
{
    /// <summary>In the morning of the day of the work.</summary>
    public static readonly DateTimeOffset Morning = new(2026, 4, 14, 12, 40, 0, TimeSpan.Zero);

    private static readonly Plan Example = Read("cold-store-dock.yaml");

    /// <summary>Without a stop and without a hold.</summary>
    public static Plan Sound()
    {
        var plan = Example.Clone();
        plan.Installer = new InstallerQualification { AskedFor = false };
        foreach (var product in plan.Products)
        {
            product.MinFluidTemperature = new Temperature { DegreesFahrenheit = 100 };
            product.MaxFluidTemperature = new Temperature { DegreesFahrenheit = 150 };
        }

        return plan;
    }

    /// <summary>With one hold, fill.wall-holds-pressure on posts, which the engineer of record or the safety officer may release.</summary>
    public static Plan Held()
    {
        var plan = Sound();
        plan.Work.Single(work => work.Id == "posts").CavityFill.WallHolds = new Pressure { PoundsForcePerSquareInch = 4 };
        return plan;
    }

    /// <summary>With stops.</summary>
    public static Plan Stopped() => Read("cold-store-dock-broken.yaml");

    /// <summary>What is measured in the morning, and nothing else.</summary>
    public static Plan Today(double humidity = 40)
    {
        var at = Timestamp.FromDateTimeOffset(Morning.AddMinutes(-30));
        var today = new Plan
        {
            Gear = new Gear
            {
                RatioCheck = new RatioCheck { Deviation = new Ratio { Percent = 1 }, At = at, SinceStartUp = true, ImbalanceShutOffWorks = true, EmptyDrumShutOffWorks = true },
                OutputCheck = new OutputCheck { At = at, TimedAndWeighed = true },
                FluidTemperatures = new FluidTemperatures { ASide = new Temperature { DegreesFahrenheit = 125 }, BSide = new Temperature { DegreesFahrenheit = 125 } },
                DrumCare = new DrumCare { AllSound = true, SuspectLeftInPlace = true, AreaCleared = true, SupplierCalled = true, BungsOpenedSlowly = true },
            },
        };
        today.Areas.Add(Readings("dock", "posts", humidity, at));
        today.Areas.Add(Readings("office", "office-wall", humidity, at));
        today.Areas[1].Readings.Add(new Reading { Kind = ReadingKind.WoodMoisture, At = at, Humidity = new Ratio { Percent = 12 } });
        today.Work.Add(new WorkItem { Id = "office-wall", Spray = new SprayApplication { PassesDone = 0 } });
        return today;
    }

    /// <summary>As built, measured.</summary>
    public static Plan AsBuilt()
    {
        var plan = Sound();
        plan.JudgedAt = Timestamp.FromDateTimeOffset(Morning.AddDays(2));
        return plan;
    }

    private static WorkArea Readings(string area, string work, double humidity, Timestamp at) => new()
    {
        Id = area,
        FaceWater = new FaceWater { DryNow = true, DryUntilSkinned = true },
        Readings =
        {
            new Reading { Kind = ReadingKind.AirTemperature, At = at, Temperature = new Temperature { DegreesFahrenheit = 68 } },
            new Reading { Kind = ReadingKind.RelativeHumidity, At = at, Humidity = new Ratio { Percent = humidity } },
            new Reading { Kind = ReadingKind.SurfaceTemperature, At = at, Temperature = new Temperature { DegreesFahrenheit = 66 }, Work = work },
            new Reading { Kind = ReadingKind.SurfaceTemperature, At = at, Temperature = new Temperature { DegreesFahrenheit = 66 } },
        },
    };

    private static Plan Read(string name)
    {
        var read = PlanReader.ReadText(File.ReadAllText(Repository.PathOf("shared", "plans", name)), name, new ReadOptions(default));
        Assert.Empty(read.Violations);
        return read.Message!;
    }
}
