using FoamRules.Model;
using Google.Protobuf;
using Contract = FoamRules.Contracts.V1;

namespace FoamRules.Exchange.Calculating;

/// <summary>One quantity in every unit of the contract.</summary>
internal static class ConvertUnitsCalculator
{
    public static Contract.ConvertUnitsResponse Run(Contract.ConvertUnitsRequest request, Working working)
    {
        var given = (IMessage)Contract.ConvertUnitsRequest.Descriptor.Oneofs[0].Accessor.GetCaseFieldDescriptor(request).Accessor.GetValue(request);
        var quantity = QuantityMap.Read(given)!;
        var response = new Contract.ConvertUnitsResponse();
        foreach (var unit in given.Descriptor.Oneofs[0].Fields)
        {
            response.Values.Add(new Contract.UnitValue { Unit = unit.Name, Value = QuantityMap.In(quantity, unit) });
        }

        working.Add(new WorkedStep(
            "the same quantity", "x in another unit = x × the definition of its unit ÷ the definition of the other",
            [new Term("x", "the quantity given", Measure.Of(quantity))], Measure.Of(quantity), "definitions of the units, NIST SP 811 (2008) appendix B (read)"));
        return response;
    }
}
