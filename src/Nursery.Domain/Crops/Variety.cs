using NodaTime;

namespace Nursery.Domain.Crops;

public sealed class Variety
{
    public required Id<Variety> Id { get; init; }
    public required Id<Crop> CropId { get; init; }
    public required string Code { get; set; }
    public required string Name { get; set; }
    public LocalDate? RetiredOn { get; set; }
    public int Version { get; set; } = 1;
}
