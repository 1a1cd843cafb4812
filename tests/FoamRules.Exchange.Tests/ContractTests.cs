using FoamRules.Contracts.V1;
using Google.Protobuf.Reflection;

namespace FoamRules.Exchange.Tests;

/// <summary>The contract against the records and the units that it names.</summary>
public sealed class ContractTests
{
    // The files whose messages are plans and reports; each message has a record of the same name.
    private static readonly FileDescriptor[] Files =
    [
        PlanReflection.Descriptor, SiteReflection.Descriptor, AreaReflection.Descriptor, ProductReflection.Descriptor,
        PersonReflection.Descriptor, GearReflection.Descriptor, WorkReflection.Descriptor, EnvelopeReflection.Descriptor,
    ];

    [Fact]
    public void Every_message_has_a_record_with_a_property_for_every_field_and_none_besides()
    {
        var records = typeof(Model.Plan).Assembly.GetExportedTypes().ToDictionary(type => type.Name);
        var messages = Files.SelectMany(file => file.MessageTypes).ToList();
        Assert.True(messages.Count > 50);
        foreach (var message in messages)
        {
            var record = records[message.Name];
            var properties = record.GetProperties().Select(property => property.Name).Except(["Where", "EqualityContract"]).Order();
            Assert.Equal(message.Fields.InDeclarationOrder().Select(field => field.PropertyName).Order(), properties);
        }
    }

    [Fact]
    public void Every_enum_has_the_same_names_and_numbers_in_the_records()
    {
        var types = typeof(Model.Plan).Assembly.GetExportedTypes().ToDictionary(type => type.Name);
        foreach (var name in Files.Append(ReportReflection.Descriptor).SelectMany(file => file.EnumTypes))
        {
            var numbers = Enum.GetValues(types[name.Name]).Cast<object>().Select(Convert.ToInt32).Order();
            Assert.Equal(name.Values.Select(value => value.Number).Where(number => number != 0).Order(), numbers);
            Assert.Equal("UNSPECIFIED", name.Values.Single(value => value.Number == 0).Name.Split('_')[^1]);
        }
    }

    [Fact]
    public void Every_unit_of_the_contract_is_known_and_survives_the_way_there_and_back()
    {
        foreach (var field in QuantitiesReflection.Descriptor.MessageTypes.SelectMany(message => message.Fields.InDeclarationOrder()))
        {
            var quantity = QuantityMap.From(12.5, field);
            var written = QuantityMap.Write(quantity)!;
            var back = QuantityMap.Read(written)!;
            Assert.Equal(field.ContainingType.Name, written.Descriptor.Name);
            Assert.Equal(12.5, field.Name == "foot_candles" ? Model.FootCandles.In((UnitsNet.Illuminance)back) : QuantityMap.In(back, field), 9);
        }
    }

    // 1 ft² = 0.09290304 m², NIST SP 811 (2008) appendix B.9: a foot-candle is 10.76391 lx.
    [Fact]
    public void A_foot_candle_is_10_76391_lux() => Assert.Equal(10.76391, Model.FootCandles.From(1).Lux, 5);

    [Theory]
    [InlineData("VentHoles", "vent_holes")]
    [InlineData("ListedNfpa275", "listed_nfpa_275")]
    [InlineData("PassedNfpa276OrUl1256", "passed_nfpa_276_or_ul_1256")]
    public void A_property_knows_the_name_of_its_field(string property, string field) => Assert.Equal(field, Model.PathStep.FieldName(property));
}
