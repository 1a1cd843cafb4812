using UnitsNet;
using Contract = FoamRules.Contracts.V1;

namespace FoamRules.Exchange.Calculating;

/// <summary>Between the contract's quantity messages and quantities, with their types; the checks have been made before.</summary>
internal static class TypedQuantities
{
    public static Length Quantity(this Contract.Length message) => (Length)QuantityMap.Read(message)!;

    public static Contract.Length Message(this Length quantity) => (Contract.Length)QuantityMap.Write(quantity)!;

    public static Area Quantity(this Contract.Area message) => (Area)QuantityMap.Read(message)!;

    public static Contract.Area Message(this Area quantity) => (Contract.Area)QuantityMap.Write(quantity)!;

    public static Volume Quantity(this Contract.Volume message) => (Volume)QuantityMap.Read(message)!;

    public static Contract.Volume Message(this Volume quantity) => (Contract.Volume)QuantityMap.Write(quantity)!;

    public static Mass Quantity(this Contract.Mass message) => (Mass)QuantityMap.Read(message)!;

    public static Contract.Mass Message(this Mass quantity) => (Contract.Mass)QuantityMap.Write(quantity)!;

    public static Temperature Quantity(this Contract.Temperature message) => (Temperature)QuantityMap.Read(message)!;

    public static Contract.Temperature Message(this Temperature quantity) => (Contract.Temperature)QuantityMap.Write(quantity)!;

    public static TemperatureDelta Quantity(this Contract.TemperatureDifference message) => (TemperatureDelta)QuantityMap.Read(message)!;

    public static Contract.TemperatureDifference Message(this TemperatureDelta quantity) => (Contract.TemperatureDifference)QuantityMap.Write(quantity)!;

    public static Density Quantity(this Contract.Density message) => (Density)QuantityMap.Read(message)!;

    public static Contract.Density Message(this Density quantity) => (Contract.Density)QuantityMap.Write(quantity)!;

    public static Duration Quantity(this Contract.Duration message) => (Duration)QuantityMap.Read(message)!;

    public static Contract.Duration Message(this Duration quantity) => (Contract.Duration)QuantityMap.Write(quantity)!;

    public static Ratio Quantity(this Contract.Ratio message) => (Ratio)QuantityMap.Read(message)!;

    public static Contract.Ratio Message(this Ratio quantity) => (Contract.Ratio)QuantityMap.Write(quantity)!;

    public static Pressure Quantity(this Contract.Pressure message) => (Pressure)QuantityMap.Read(message)!;

    public static Contract.Pressure Message(this Pressure quantity) => (Contract.Pressure)QuantityMap.Write(quantity)!;

    public static VolumeFlow Quantity(this Contract.VolumeFlow message) => (VolumeFlow)QuantityMap.Read(message)!;

    public static Contract.VolumeFlow Message(this VolumeFlow quantity) => (Contract.VolumeFlow)QuantityMap.Write(quantity)!;

    public static MassFlow Quantity(this Contract.MassFlow message) => (MassFlow)QuantityMap.Read(message)!;

    public static Contract.MassFlow Message(this MassFlow quantity) => (Contract.MassFlow)QuantityMap.Write(quantity)!;

    public static VolumeConcentration Quantity(this Contract.VolumeConcentration message) => (VolumeConcentration)QuantityMap.Read(message)!;

    public static MassConcentration Quantity(this Contract.MassConcentration message) => (MassConcentration)QuantityMap.Read(message)!;

    public static Contract.MassConcentration Message(this MassConcentration quantity) => (Contract.MassConcentration)QuantityMap.Write(quantity)!;

    public static Frequency Quantity(this Contract.AirChanges message) => (Frequency)QuantityMap.Read(message)!;

    public static Level Quantity(this Contract.SoundLevel message) => (Level)QuantityMap.Read(message)!;

    public static Contract.SoundLevel Message(this Level quantity) => (Contract.SoundLevel)QuantityMap.Write(quantity)!;

    public static ThermalConductivity Quantity(this Contract.ThermalConductivity message) => (ThermalConductivity)QuantityMap.Read(message)!;

    public static SpecificEntropy Quantity(this Contract.SpecificHeat message) => (SpecificEntropy)QuantityMap.Read(message)!;

    public static SpecificEnergy Quantity(this Contract.SpecificEnergy message) => (SpecificEnergy)QuantityMap.Read(message)!;

    public static HeatTransferCoefficient Quantity(this Contract.HeatTransferCoefficient message) => (HeatTransferCoefficient)QuantityMap.Read(message)!;

    public static Contract.HeatTransferCoefficient Message(this HeatTransferCoefficient quantity) => (Contract.HeatTransferCoefficient)QuantityMap.Write(quantity)!;

    public static ThermalResistance Quantity(this Contract.ThermalResistance message) => (ThermalResistance)QuantityMap.Read(message)!;

    public static Contract.ThermalResistance Message(this ThermalResistance quantity) => (Contract.ThermalResistance)QuantityMap.Write(quantity)!;

    public static MolarMass Quantity(this Contract.MolarMass message) => (MolarMass)QuantityMap.Read(message)!;

    public static Contract.Force Message(this Force quantity) => (Contract.Force)QuantityMap.Write(quantity)!;

    public static Contract.Power Message(this Power quantity) => (Contract.Power)QuantityMap.Write(quantity)!;

    public static Contract.MassFlux Message(this MassFlux quantity) => (Contract.MassFlux)QuantityMap.Write(quantity)!;

    public static Contract.AreaDensity Message(this AreaDensity quantity) => (Contract.AreaDensity)QuantityMap.Write(quantity)!;
}
