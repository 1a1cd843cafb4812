using FoamRules.Contracts.V1;
using FoamRules.Exchange.Calculating;
using FoamRules.Testing;
using Google.Protobuf;
using Google.Protobuf.Reflection;
using DisplayUnits = FoamRules.Model.DisplayUnits;
using Refusal = FoamRules.Model.Refusal;
using Said = FoamRules.Model.Said;

namespace FoamRules.Exchange.Tests;

/// <summary>Each calculation by itself: examples, refusals, impossible values.</summary>
public sealed class CalculationTests
{
    public static TheoryData<string> Names { get; } = [.. CalculationExamples.Names];

    [Fact]
    public void Every_method_of_the_service_has_a_calculation_of_its_name_and_an_example()
    {
        var service = CalculationServiceReflection.Descriptor.Services.Single();
        Assert.Equal(service.Methods.Select(method => method.InputType), Calculators.All.Select(calculator => calculator.Request));
        Assert.Equal(service.Methods.Select(method => method.Name), Calculators.All.Select(calculator => Pascal(calculator.Name)));
        Assert.Equal(CalculationExamples.Names, Calculators.All.Select(calculator => calculator.Name).Order(StringComparer.Ordinal));
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void An_example_is_answered_with_worked_steps_that_name_their_source(string name)
    {
        var response = Answer(name, CalculationExamples.TextOf(name)).Response;
        Assert.NotNull(response);
        var steps = ((System.Collections.IList)response.Descriptor.FindFieldByName("steps").Accessor.GetValue(response)).Cast<WorkedStep>().ToList();
        Assert.NotEmpty(steps);
        Assert.All(steps, step => Assert.True(step.Name.Length > 0 && step.Formula.Length > 0 && step.Source.Length > 0 && step.Result is not null, step.ToString()));
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Yaml_and_json_give_the_same_answer(string name)
    {
        var request = Request(name);
        Assert.Equal(Answer(name, CalculationExamples.TextOf(name)).Response, Answer(name, JsonFormatter.Default.Format(request)).Response);
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Nothing_at_all_is_answered_with_what_is_missing(string name)
    {
        var answer = Answer(name, "{}");
        Assert.Null(answer.Response);
        Assert.NotEmpty(answer.Violations);
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void No_value_makes_it_fail_and_what_is_no_number_is_impossible(string name)
    {
        var calculator = Calculators.Find(name)!;
        var leaves = Leaves(Request(name)).Count();
        Assert.True(leaves > 0);
        foreach (var value in new[] { double.NaN, double.PositiveInfinity, -1, 0, 1e-9, 1e9, 1e12 })
        {
            for (var i = 0; i < leaves; i++)
            {
                var request = Request(name);
                var (message, field) = Leaves(request).ElementAt(i);
                field.Accessor.SetValue(message, value);
                var answer = calculator.Calculate(request);
                Assert.True(answer.Response is not null || answer.Refusal is not null || answer.Violations.Count > 0);
                if (!double.IsFinite(value))
                {
                    Assert.Contains(answer.Violations, violation => violation.Path.EndsWith(field.Name, StringComparison.Ordinal));
                }
            }
        }
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void No_extremes_together_leave_what_a_number_can_be(string name)
    {
        // Each number at one of its ends, in two hundred combinations; a result beyond all numbers would be thrown.
        var calculator = Calculators.Find(name)!;
        var (example, random) = (Request(name).ToByteArray(), new Random(1));
        double[] ends = [0, 1e-18, 1e12, -1e12];
        for (var turn = 0; turn < 200; turn++)
        {
            var request = calculator.Request.Parser.ParseFrom(example);
            foreach (var (message, field) in Leaves(request).ToList())
            {
                // As it was, too: else hardly a request passes the first check.
                if (random.Next(3) > 0)
                {
                    field.Accessor.SetValue(message, Nearest(field, ends[random.Next(ends.Length)]));
                }
            }

            var answer = calculator.Calculate(request);
            Assert.True(answer.Response is not null || answer.Refusal is not null || answer.Violations.Count > 0);
        }

        static double Nearest(FieldDescriptor field, double value)
        {
            var check = FieldChecker.CheckOf(field);
            return Math.Clamp(value, check.HasAtLeast ? check.AtLeast : double.MinValue, check.HasAtMost ? check.AtMost : double.MaxValue);
        }
    }

    [Theory]
    [InlineData(1e13)]
    [InlineData(1e-19)]
    [InlineData(double.MaxValue)]
    [InlineData(double.Epsilon)]
    public void A_plain_number_of_no_ordinary_size_is_named_by_its_field(double value)
    {
        var request = (FillMassRequest)Request("fill-mass");
        request.FlowFactor = value;
        Assert.Equal(("flow_factor", "a finite number of ordinary size"), (Calculators.Find("fill-mass")!.Calculate(request).Violations.Single() is var one ? (one.Path, one.Allowed.ToString()) : default));
    }

    [Theory]
    [InlineData("dew-point", "air: { degrees_celsius: 250 }\nrelative_humidity: { percent: 50 }", "air temperature", "−100 to 200 °C")]
    [InlineData("dew-point", "air: { degrees_celsius: 20 }\nrelative_humidity: { percent: 0 }", "relative humidity", "more than 0 % and at most 100 %")]
    [InlineData("fill-mass", "volumes: { smallest: { liters: 20 }, largest: { liters: 30 } }\nfree_rise_density: { kilograms_per_cubic_meter: 30 }\nflow_factor: 1.1\noverpack_limit: { percent: 10 }", "overpack limit", "at least (largest ÷ smallest likely void) − 1")]
    [InlineData("fill-mass", "prism: { area: { square_meters: 0.01 }, length: { meters: 1 } }\nfree_rise_density: { kilograms_per_cubic_meter: 30 }\nflow_factor: 0.9\noverpack_limit: { percent: 10 }", "flow factor", "1 or more")]
    [InlineData("fill-mass", "hollow_section: { section: HSS6X6X3/8, standard: en-10210-2, length: { meters: 1 } }\nfree_rise_density: { kilograms_per_cubic_meter: 30 }\nflow_factor: 1\noverpack_limit: { percent: 10 }", "section designation", "without HSS for a section to a European standard, in millimetres")]
    [InlineData("material", "volume: { liters: 0 }\nin_place_density: { kilograms_per_cubic_meter: 32 }", "volume", "more than 0")]
    [InlineData("cavity-pressure", "vented: { peak_flow: { liters_per_second: 1 }, vents: { vents: [] }, discharge_coefficient: 0.6, air_density: { kilograms_per_cubic_meter: 1.2 } }", "open vents", "at least one that foam has not reached")]
    [InlineData("cavity-pressure", "vented: { peak_flow: { liters_per_second: 1 }, vents: { vents: [{ diameter: { inches: 0.5 }, state: reached-by-foam }] }, discharge_coefficient: 0.6, air_density: { kilograms_per_cubic_meter: 1.2 } }", "open vents", "at least one that foam has not reached")]
    [InlineData("purge", "initial: { milligrams_per_cubic_meter: 1 }\nsource: { none: {} }\nroom: { cubic_meters: 50 }\nmixing_factor: 11\nstages: [{ air_changes: { per_hour: 5 } }]\nlimit: { milligrams_per_cubic_meter: 0.1 }", "mixing factor", "1 to 10")]
    [InlineData("thickness-survey", "readings: [{ inches: 2 }]\narea: { square_feet: 100 }\nacceptance_test: mean\nconfidence: { percent: 95 }\nprecision: { inches: 0.1 }\nleast_readings: 1\narea_per_reading: { square_feet: 100 }", "readings", "2 or more")]
    public void Outside_its_range_a_formula_gives_no_number_and_names_the_range(string name, string text, string input, string allowed)
    {
        var answer = Answer(name, text);
        Assert.Empty(answer.Violations);
        Assert.Null(answer.Response);
        Assert.Equal((input, allowed), (answer.Refusal!.Input, answer.Refusal.Allowed));
        Assert.NotEmpty(answer.Refusal.Why);
        var said = Spoken(answer.Refusal.Sentence(DisplayUnits.Si)).Where(words => words != answer.Refusal.Found.Text).ToList();
        Assert.All(new[] { "es", "fr" }, language => Assert.Empty(said.Except(ViolationWords.Of(language).Keys)));
    }

    private static IEnumerable<string> Spoken(Said said) => said.Parts.SelectMany(Spoken).Concat(said.IsName || !said.Pattern.Any(char.IsLetter) ? [] : [said.Pattern]);

    [Fact]
    public void A_refusal_is_said_in_the_language_of_who_asks()
    {
        var refusal = Answer("dew-point", "air: { degrees_celsius: 250 }\nrelative_humidity: { percent: 50 }").Refusal!;
        Assert.Equal("air temperature: found 482 °F; allowed: −100 to 200 °C; the Hyland-Wexler formulas hold there only", refusal.Sentence(DisplayUnits.Us).ToString());
        Assert.Equal("temperatura del aire: se encontró 250 °C; se permite: −100 a 200 °C; las fórmulas de Hyland-Wexler valen solo ahí", refusal.Sentence(DisplayUnits.Si).In(ViolationWords.Of("es")));
    }

    [Theory]
    [InlineData("0.1 mm to 1 m", "{0} to {1}")]
    [InlineData("0.001 to 1,000,000 W/(m² K)", "{0} to {1}")]
    [InlineData("at most 500 mm, round 2,500 mm", "at most {0}, round {1}")]
    [InlineData("such as HSS6X6X3/8 (inches) or 100x100x5 (millimetres)", "such as HSS6X6X3/8 (inches) or 100x100x5 (millimetres)")]
    public void The_numbers_of_a_range_stand_apart_from_its_words(string range, string pattern) =>
        Assert.Equal((range, pattern), (Refusal.Range(range).ToString(), Refusal.Range(range).Pattern));

    [Fact]
    public void Everything_impossible_is_named_at_once_by_path_and_line()
    {
        var answer = Answer("dew-point", "air: { degrees_celsius: -300 }\nrelative_humidity: { percent: 101 }\nhumidity_over: 9\nsurface: {}\nwind: 3");
        Assert.Equal(
            ["air.degrees_celsius", "relative_humidity.percent", "humidity_over", "surface", "wind"], answer.Violations.Select(violation => violation.Path));
        Assert.Equal([1, 2, 3, 4, 5], answer.Violations.Select(violation => violation.Line));
    }

    [Theory]
    [InlineData("convert-units", "{}", "")]
    [InlineData("convert-units", "length: { cubits: 3 }", "length.cubits")]
    [InlineData("fill-mass", "free_rise_density: { kilograms_per_cubic_meter: 30 }\nflow_factor: 1\noverpack_limit: { percent: 10 }", "")]
    [InlineData("day", "shift: { time_zone: Nowhere/Else, date: 2026-02-30, from: \"25:00\", to: \"7\" }\nsteps: [{ id: a, kind: move, duration: { minutes: -1 }, gaps: [{ after: b, at_least: { minutes: 1 } }] }]", "shift.date shift.from shift.time_zone shift.to steps[0].duration.minutes steps[0].gaps[0].after")]
    [InlineData("rotation", "holes: [{ id: A, compartment: A, trigger_times: [{ seconds: 5 }] }, { id: A, compartment: B, trigger_times: [] }]\nfull_rise_seen: { seconds: 60 }\nrise_factor: 1.5\nwalk: { seconds: 5 }", "holes[1] holes[1].trigger_times")]
    [InlineData("respirator", "task_floor: 10\nexposures: [{ limit_name: c, limit: { vapour: { parts_per_million: 0.02 } }, expected: { nco: { milligrams_per_cubic_meter: 0.1 } } }]", "isocyanate vapour")]
    [InlineData("noise-dose", "exposures: [{ task: x, level: { decibels: 90 }, time: { hours: -1 } }]\nrule: { criterion_level: { decibels: 90 }, criterion_time: { hours: 8 }, exchange_rate: { decibels: 5 } }", "exposures[0].time.hours rule.source")]
    public void What_is_missing_or_does_not_go_together_is_named_by_path(string name, string text, string paths)
    {
        var answer = Answer(name, text);
        Assert.Null(answer.Response);
        Assert.Null(answer.Refusal);
        Assert.Equal(paths, string.Join(' ', answer.Violations.Select(violation => violation.Path).Order(StringComparer.Ordinal)));
    }

    [Fact]
    public void A_surface_limit_needs_a_design_day_and_an_interval_encloses_its_likely_value()
    {
        var wall = (WallLayersRequest)Request("wall-layers");
        wall.DesignDay = null;
        Assert.Equal("design_day", Assert.Single(Calculators.Find("wall-layers")!.Calculate(wall).Violations).Path);
        var heat = (PassHeatRequest)Request("pass-heat");
        heat.AdiabaticRise.Rise.Low = new TemperatureDifference { Kelvins = 140 };
        Assert.Equal("adiabatic_rise", Assert.Single(Calculators.Find("pass-heat")!.Calculate(heat).Violations).Path);
    }

    [Fact]
    public void A_constant_source_that_holds_the_air_above_the_limit_never_lets_anyone_in()
    {
        // 1 g/h in 100 m³ with 2 air changes holds 5 mg/m³: S·K/n.
        var request = (PurgeRequest)Request("purge");
        request.Source = new EmissionSource { Constant = new MassFlow { GramsPerHour = 1 } };
        request.Room = new Volume { CubicMeters = 100 };
        request.MixingFactor = 1;
        request.Stages.Clear();
        request.Stages.Add(new VentilationStage { AirChanges = new AirChanges { PerHour = 2 } });
        request.Limit = new MassConcentration { MilligramsPerCubicMeter = 5 };
        var response = (PurgeResponse)Calculators.For(PurgeRequest.Descriptor).Calculate(request).Response!;
        Assert.Equal(PurgeResponse.ConcentrationOneofCase.Never, response.ConcentrationCase);
        Assert.NotEmpty(response.Never.Why);
        Assert.Null(response.Wait);
    }

    [Fact]
    public void The_longest_wait_decides_a_re_entry_and_bears_its_name()
    {
        var request = (PurgeRequest)Request("purge");
        request.OtherWaits.Clear();
        var alone = (PurgeResponse)Calculators.Find("purge")!.Calculate(request).Response!;
        Assert.Equal(("concentration", alone.StaysBelowFrom), (alone.DecidedBy, alone.Wait));
        request.OtherWaits.Add(new OtherWait { Name = "data sheet", Wait = new Duration { Hours = 48 } });
        var both = (PurgeResponse)Calculators.Find("purge")!.Calculate(request).Response!;
        Assert.Equal(("data sheet", new Duration { Seconds = 172_800 }), (both.DecidedBy, both.Wait));
    }

    [Fact]
    public void Test_shots_answer_a_first_shot_and_a_top_up()
    {
        // 90 % of 700 g at 70 g/s: 9 s.
        var first = (TestShotsResponse)Answer("test-shots", "first_shot: { least_fill: { grams: 700 }, highest_output: { grams_per_second: 70 }, share: { percent: 90 } }").Response!;
        Assert.Equal(9, first.FirstShot.Seconds, 9);
        // 0.155 m a second through the origin: what is missing of 1.80 m at 0.70 m takes as long as 1.10 m.
        var request = (TestShotsRequest)Request("test-shots");
        var whole = (TestShotsResponse)Calculators.Find("test-shots")!.Calculate(request).Response!;
        request.SecondsForFill.Wanted = new Fill { Height = new Length { Meters = 1.8 } };
        request.SecondsForFill.Seen = new Fill { Height = new Length { Meters = 0.7 } };
        var topUp = (TestShotsResponse)Calculators.Find("test-shots")!.Calculate(request).Response!;
        Assert.Equal(whole.SecondsForFill.Aim.Seconds, topUp.SecondsForFill.Aim.Seconds, 9);
        request.SecondsForFill.Seen = new Fill { Mass = new Mass { Grams = 1 } };
        Assert.Equal("fill seen", Calculators.Find("test-shots")!.Calculate(request).Refusal!.Input);
    }

    [Fact]
    public void Framing_lowers_the_resistance_of_a_wall_and_a_sealed_tube_fills_by_Boyle()
    {
        var wall = (WallLayersRequest)Request("wall-layers");
        var plain = ((WallLayersResponse)Calculators.Find("wall-layers")!.Calculate(wall).Response!).Resistance.SquareMeterKelvinsPerWatt;
        var framing = new BridgingPart { Share = new Ratio { Percent = 15 }, Layers = { wall.Layers.Select(layer => layer.Clone()) } };
        framing.Layers[1].Solid.Conductivity = new ThermalConductivity { WattsPerMeterKelvin = 0.06 };
        wall.Bridges.Add(framing);
        var bridged = ((WallLayersResponse)Calculators.Find("wall-layers")!.Calculate(wall).Response!).Resistance.SquareMeterKelvinsPerWatt;
        Assert.InRange(bridged, 1.5, plain - 0.1);
        // 1 − 101.325/151.325 at one temperature: 33 %.
        var sealedTube = (CavityPressureResponse)Answer("cavity-pressure", "sealed: { air_pressure: { kilopascals: 101.325 }, foam_pressure: { kilopascals: 50 }, air_before: { degrees_celsius: 20 }, air_after: { degrees_celsius: 20 } }").Response!;
        Assert.Equal(33.04, sealedTube.SealedFill.Percent, 2);
    }

    [Fact]
    public void Units_convert_both_ways_and_below_zero()
    {
        // 1 psi = 6894.757 Pa, NIST SP 811 (2008) appendix B.9.
        var pressure = (ConvertUnitsResponse)Answer("convert-units", "pressure: { pounds_force_per_square_inch: -1 }").Response!;
        Assert.Equal(-6894.757, pressure.Values.Single(value => value.Unit == "pascals").Value, 3);
        var light = (ConvertUnitsResponse)Answer("convert-units", "illuminance: { lux: 107.6391 }").Response!;
        Assert.Equal(10, light.Values.Single(value => value.Unit == "foot_candles").Value, 5);
    }

    private static IMessage Request(string name)
    {
        var request = Calculators.Find(name)!.Request.Parser.ParseFrom(ByteString.Empty);
        Assert.Empty(MessageReader.Read(Text.DataText.Read(CalculationExamples.TextOf(name), name).Root!, request, name));
        return request;
    }

    private static CalculationAnswer Answer(string name, string text) => Calculators.Find(name)!.Calculate(text, name + ".yaml");

    // Every number that is given.
    private static IEnumerable<(IMessage Message, FieldDescriptor Field)> Leaves(IMessage message)
    {
        foreach (var field in message.Descriptor.Fields.InDeclarationOrder())
        {
            if (field.FieldType == FieldType.Double && field.HasPresence && field.Accessor.HasValue(message))
            {
                yield return (message, field);
            }
            else if (field.FieldType == FieldType.Message)
            {
                var inner = field.IsRepeated ? ((System.Collections.IList)field.Accessor.GetValue(message)).Cast<IMessage>() : field.Accessor.HasValue(message) ? [(IMessage)field.Accessor.GetValue(message)] : [];
                foreach (var leaf in inner.SelectMany(Leaves))
                {
                    yield return leaf;
                }
            }
        }
    }

    private static string Pascal(string name) => string.Concat(name.Split('-').Select(word => char.ToUpperInvariant(word[0]) + word[1..]));
}
