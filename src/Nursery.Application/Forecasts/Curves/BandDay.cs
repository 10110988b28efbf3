using Nursery.Agronomy;

namespace Nursery.Application.Forecasts.Curves;

/// <summary>Seeds up on a day after sowing ÷ seeds, nine in ten.</summary>
public sealed record BandDay(double Day, Interval Up);
