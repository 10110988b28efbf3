using Microsoft.EntityFrameworkCore.Storage.ValueConversion;
using Nursery.Domain;

namespace Nursery.Data.Conventions;

internal sealed class IdConverter<T>() : ValueConverter<Id<T>, Guid>(id => id.Value, value => new Id<T>(value));
